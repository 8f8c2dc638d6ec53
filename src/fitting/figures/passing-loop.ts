import { formatMm } from '../../measure/length.ts'
import { type BackToParallel, backToParallel, neverClear, whereApart } from './beside.ts'
import { comingTo, facing, leaving, type Names, startAt, straight, trailing } from './elements.ts'
import { type FigureFault, type FigureResult, type Kinds, ORIGIN, outOfRange, refused } from './figure.ts'

interface PassingLoopOf extends Kinds {
  readonly spacingMm: number
  readonly foulingMm: number
  readonly clearMm: number
  readonly radiusMm: number
  readonly names: Names
}

/**
 * A siding beside a straight, with a turnout at either end. Its straight part is as long as it takes: the clear length is
 * measured along the siding between the two places where its centre line is `foulingMm` from that of the straight.
 *
 * Closed forms; checked in tests/fitting/figures/passing-loop.test.ts.
 */
export function passingLoop(asked: PassingLoopOf): FigureResult {
  const { near, far, spacingMm, foulingMm, clearMm, radiusMm, names } = asked
  const ends = [near, far].map(({ legs }) => backToParallel(legs.diverging, spacingMm, radiusMm))
  const faults = ends.flatMap((end) => (end.ok ? [] : [end.fault]))
  if (foulingMm > spacingMm + 1e-9) faults.push(neverClear(foulingMm, spacingMm))
  if (faults.length > 0) return refused(...distinct(faults))
  const [entry, exit] = ends.map((end) => (end as { path: BackToParallel }).path) as [BackToParallel, BackToParallel]
  const curvedMm = clearOf(entry, foulingMm) + clearOf(exit, foulingMm)
  const straightMm = clearMm - curvedMm
  const throughMm = near.legs.through.lengthMm + far.legs.through.lengthMm
  const leastMm = Math.max(curvedMm, curvedMm + throughMm - entry.reachMm - exit.reachMm)
  if (clearMm < leastMm - 1e-9) return refused(tooShort(clearMm, leastMm))
  const totalMm = entry.reachMm + Math.max(0, straightMm) + exit.reachMm
  const [w1, w2] = [names.turnout(1), names.turnout(2)]
  return {
    ok: true,
    tracks: [
      {
        name: names.track('main'),
        start: startAt(ORIGIN),
        elements: [facing(w1, near), ...straight(totalMm - throughMm), trailing(w2, far)],
      },
      {
        name: names.track('siding'),
        start: leaving(w1, 'diverging'),
        end: comingTo(w2, 'diverging'),
        elements: [...entry.elements, ...straight(straightMm), ...exit.elements.toReversed()],
      },
    ],
    measures: [
      { name: 'clear length of the siding', valueMm: clearMm },
      { name: 'points to points', valueMm: totalMm },
      { name: 'straight part of the siding', valueMm: Math.max(0, straightMm) },
    ],
  }
}

function clearOf({ pieces, lengthMm }: BackToParallel, foulingMm: number): number {
  return lengthMm - whereApart(pieces, foulingMm)!
}

function tooShort(clearMm: number, leastMm: number): FigureFault {
  return outOfRange(
    'clear',
    `the curves of the siding alone stand clear for ${formatMm(leastMm)}, more than the ${formatMm(clearMm)} wanted`,
    `use a clear length of ${formatMm(Math.ceil(leastMm))} or more`,
  )
}

/** Both ends may be refused for the same reason. */
function distinct(faults: readonly FigureFault[]): FigureFault[] {
  return [...new Map(faults.map((fault) => [fault.detail, fault])).values()]
}
