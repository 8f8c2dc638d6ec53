import type { Patch } from '../../fitting/json-patch.ts'
import type { SentElement } from '../../fitting/patches.ts'
import type { OpenField } from '../../plan/elements.ts'
import { FIT } from '../../plan/fields/kinds.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { ElementInput } from '../../plan/rows/track.ts'

/** A nanometre and a millionth of a degree per kilometre: nothing that could be laid. */
const DECIMALS = { mm: 6, deg: 9 } as const

/** An element that was left open, or one of those that came of a connection, among the elements as fitted. */
export interface FittedPlace {
  readonly track: number
  readonly element: number
  /** Among the elements as sent. */
  readonly sentAt: number
  /** What was left open: some of its fields, as they were sent, or the whole path. */
  readonly open: readonly SentField[] | 'path'
}

type SentField = OpenField | 'diameter'
const FIELDS = ['radius', 'diameter', 'angle', 'length'] as const satisfies readonly SentField[]

/**
 * Where in a fitted plan something was worked out; nowhere where the plan as it was sent leaves nothing open.
 *
 * @param plan the same plan, fitted
 */
export function fittedElements(sent: unknown, { tracks }: Pick<PlanInput, 'tracks'>): FittedPlace[] {
  return tracks.flatMap(({ elements }, track) => {
    const given = listAt(sent, ['tracks', track, 'elements']) as readonly SentElement[]
    const more = elements.length - given.length
    return given.flatMap((each, sentAt): FittedPlace[] => {
      if (each.kind === 'connect')
        return elements
          .slice(sentAt, sentAt + more + 1)
          .map((_, n) => ({ track, element: sentAt + n, sentAt, open: 'path' }))
      const open = FIELDS.filter((field) => each[field] === FIT)
      return open.length === 0 ? [] : [{ track, element: sentAt, sentAt, open }]
    })
  })
}

/** What writes the fitted lengths, angles, radii and paths into a plan as it was sent; empty where it leaves nothing open. */
export function fittedPatch(sent: unknown, plan: Pick<PlanInput, 'tracks'>): Patch {
  return fittedElements(sent, plan).flatMap(({ track, element, sentAt, open }): Patch => {
    const fitted = plan.tracks[track]!.elements[element]!
    const path = `/tracks/${track}/elements/${element}`
    if (open !== 'path')
      return open.map((field) => ({ op: 'replace', path: `${path}/${field}`, value: figureOf(fitted, field) }))
    // The first takes the place of the connection, the others follow it.
    return [{ op: element === sentAt ? 'replace' : 'add', path, value: rounded(fitted) }]
  })
}

/** What writes some elements in the place of one. */
export function inPlaceOf(track: number, element: number, elements: readonly ElementInput[]): Patch {
  return elements.map((each, n) => ({
    op: n === 0 ? 'replace' : 'add',
    path: `/tracks/${track}/elements/${element + n}`,
    value: rounded(each),
  }))
}

function figureOf(element: ElementInput, field: SentField): number {
  if (element.kind === 'arc' && field !== 'length') {
    if (field === 'angle') return roundedTo(element.angle!, DECIMALS.deg)
    return roundedTo(field === 'diameter' ? 2 * element.radius : element.radius, DECIMALS.mm)
  }
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
