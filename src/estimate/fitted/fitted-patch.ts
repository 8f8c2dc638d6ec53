import type { Patch } from '../../fitting/json-patch.ts'
import { FIT } from '../../plan/fields/kinds.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { ElementInput } from '../../plan/rows/track.ts'

/** A nanometre and a millionth of a degree per kilometre: nothing that could be laid. */
const DECIMALS = { mm: 6, deg: 9 } as const

/**
 * What writes the fitted lengths, angles and paths into a plan as it was sent; empty where it leaves nothing open.
 *
 * @param plan the same plan, fitted
 */
export function fittedPatch(sent: unknown, { tracks }: Pick<PlanInput, 'tracks'>): Patch {
  return tracks.flatMap(({ elements }, track) => {
    const given = listAt(sent, ['tracks', track, 'elements'])
    const more = elements.length - given.length
    return given.flatMap((element, index): Patch => {
      const at = `/tracks/${track}/elements/${index}`
      if (valueAt(element, ['kind']) === 'connect') return pathPatch(at, elements.slice(index, index + more + 1))
      return (['length', 'angle'] as const)
        .filter((field) => valueAt(element, [field]) === FIT)
        .map((field) => ({ op: 'replace', path: `${at}/${field}`, value: figureOf(elements[index]!, field) }))
    })
  })
}

/** The first element takes the place of the connection, the others follow it. */
function pathPatch(at: string, path: readonly ElementInput[]): Patch {
  const [list, index] = [at.slice(0, at.lastIndexOf('/')), Number(at.slice(at.lastIndexOf('/') + 1))]
  return path.map((element, n) => ({
    op: n === 0 ? 'replace' : 'add',
    path: `${list}/${index + n}`,
    value: rounded(element),
  }))
}

function figureOf(element: ElementInput, field: 'length' | 'angle'): number {
  if (field === 'angle') return element.kind === 'arc' ? roundedTo(element.angle!, DECIMALS.deg) : 0
  return 'length' in element ? roundedTo(element.length!, DECIMALS.mm) : 0
}

function rounded(element: ElementInput): Record<string, unknown> {
  if (element.kind === 'arc')
    return { ...element, radius: roundedUp(element.radius), angle: roundedTo(element.angle!, DECIMALS.deg) }
  return 'length' in element ? { ...element, length: roundedTo(element.length!, DECIMALS.mm) } : { ...element }
}

function roundedTo(value: number, decimals: number): number {
  return Number(value.toFixed(decimals))
}

/** A radius at its limit stays there, not below. */
function roundedUp(mm: number): number {
  const near = roundedTo(mm, DECIMALS.mm)
  return near >= mm ? near : roundedTo(near + 10 ** -DECIMALS.mm, DECIMALS.mm)
}
