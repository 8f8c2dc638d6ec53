import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { mmOf } from '../../fitting/patches.ts'
import { lengthLike, type Rounding } from '../../measure/as-written.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import { type Line, sentElements } from './line.ts'

/*
 * What may cure findings about pieces and joints. Only cutting the plan again shows whether it does.
 */

export const LAID_PROPOSALS: Readonly<Record<string, (finding: Finding, line: Line, track: number) => Patch[]>> = {
  'piece-too-short': longerRun,
  'joint-in-keep-out': breakMovedOut,
  'joints-too-near': smallerStagger,
}

interface SentBreak {
  readonly index: number
  readonly atMm: number
  readonly at: unknown
}

/** In the order of the track. */
function breaksOf({ sent }: Line, track: number): SentBreak[] {
  return listAt(sent, ['tracks', track, 'breaks'])
    .map((each, index) => ({ index, at: valueAt(each, ['at']) }))
    .map(({ index, at }) => ({ index, at, atMm: mmOf(at) }))
    .sort((a, b) => a.atMm - b.atMm)
}

function moved(track: number, { index, at }: SentBreak, mm: number, rounding: Rounding): Patch {
  return [{ op: 'replace', path: `/tracks/${track}/breaks/${index}/at`, value: lengthLike(at, mm, 0, rounding) }]
}

/**
 * The short run made long enough: a break at its end moved, or, where the whole track is too short, a straight of it
 * made longer. Rails of a curve are not as long as their stations: the run grows in proportion.
 */
function longerRun({ measured, limit }: Finding, line: Line, track: number): Patch[] {
  const { lengthMm, closed, placed } = line.tracks[track]!
  const grows = limit! / measured!
  const breaks = breaksOf(line, track)
  if (breaks.length === 0 && !closed) {
    const sent = sentElements(line, track)
    return placed
      .filter(({ kind }) => kind === 'tangent')
      .map(({ index, lengthMm: mm }): Patch => {
        const value = lengthLike(sent[index]!.length, mm + lengthMm * (grows - 1), 0, 'up')
        return [{ op: 'replace', path: `/tracks/${track}/elements/${index}/length`, value }]
      })
  }
  const bounds = [0, ...breaks.map(({ atMm }) => atMm), lengthMm]
  return bounds.slice(1).flatMap((toMm, n): Patch[] => {
    const fromMm = bounds[n]!
    const [before, after] = [breaks[n - 1], breaks[n]]
    const neededMm = (toMm - fromMm) * grows
    if (toMm - fromMm <= 0 || toMm - fromMm > 2 * limit!) return []
    return [
      ...(after ? [moved(track, after, fromMm + neededMm, 'up')] : []),
      ...(before ? [moved(track, before, toMm - neededMm, 'down')] : []),
    ].filter(([step]) => mmOf(step!.value) > 0 && mmOf(step!.value) < lengthMm)
  })
}

/** A break inside a stretch without joints moved to the nearer of its ends, or to the other. */
function breakMovedOut(_: Finding, line: Line, track: number): Patch[] {
  const stretches = line.plan.tracks[track]!.keepOut
  return breaksOf(line, track).flatMap((each) =>
    stretches
      .filter(({ from, to }) => each.atMm > from && each.atMm < to)
      .flatMap(({ from, to }) => {
        const out = [moved(track, each, from, 'down'), moved(track, each, to, 'up')]
        return each.atMm - from <= to - each.atMm ? out : out.reverse()
      }),
  )
}

/** The distance that the sticks of the plan do keep, if a joiner fits into it. */
function smallerStagger({ measured }: Finding, { sent, plan }: Line): Patch[] {
  if (measured! < plan.supplies.joiners.length) return []
  const value = lengthLike(valueAt(sent, ['joints', 'stagger']), measured!, 0, 'down')
  return [[{ op: 'replace', path: '/joints/stagger', value }]]
}
