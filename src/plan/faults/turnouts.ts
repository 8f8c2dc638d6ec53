import type { Fault } from '../../measure/fault.ts'
import { meantName } from '../fields/nearest.ts'
import type { PlanDraft } from '../reading/draft.ts'
import type { ElementInput } from '../rows/track.ts'

type Special = Extract<ElementInput, { kind: 'turnout' | 'crossing' }>

/** A turnout or crossing with its place in the plan. */
interface Named {
  readonly element: Special
  readonly track: number
  readonly path: Fault['path']
}

/** Contradictions between kinds of turnout, turnouts and crossings; the size of a kind is checked elsewhere. */
export function turnoutFaults(draft: PlanDraft): Fault[] {
  const named = namedElements(draft)
  return [...duplicateTypes(draft), ...duplicateNames(named), ...named.flatMap((each) => useFaults(each, draft))]
}

/** Turnouts and crossings, in the order of the plan. */
export function namedElements({ tracks }: PlanDraft): Named[] {
  return tracks.flatMap((track, at) =>
    (track?.elements ?? []).flatMap((element, index): Named[] =>
      element?.kind === 'turnout' || element?.kind === 'crossing'
        ? [{ element, track: at, path: ['tracks', at, 'elements', index] }]
        : [],
    ),
  )
}

function duplicateTypes({ turnoutTypes = [] }: PlanDraft): Fault[] {
  const ids = turnoutTypes.map((type) => type?.id)
  return ids.flatMap((id, index): Fault[] => {
    const first = ids.indexOf(id)
    if (id === undefined || first === index) return []
    return [
      {
        path: ['turnoutTypes', index, 'id'],
        code: 'duplicate-name',
        detail: `kind of turnout ${first + 1} is also called "${id}"`,
        hint: 'give each kind of turnout a name of its own',
      },
    ]
  })
}

/** A crossing may stand once on each of the two tracks that cross; all other names are given once. */
function duplicateNames(named: readonly Named[]): Fault[] {
  const seen = new Map<string, Named[]>()
  return named.flatMap((each): Fault[] => {
    const { element, track, path } = each
    const before = seen.get(element.name) ?? []
    seen.set(element.name, [...before, each])
    const [first, second] = before
    if (!first) return []
    const fault = (field: string, code: string, detail: string, hint: string): Fault[] => [
      { path: [...path, field], code, detail, hint },
    ]
    const bothCross = element.kind === 'crossing' && first.element.kind === 'crossing'
    if (!bothCross || second || first.track === track)
      return fault('name', 'duplicate-name', `"${element.name}" is the name of another turnout or crossing`, NAME_HINT)
    if (first.element.kind === 'crossing' && element.angle !== first.element.angle)
      return fault('angle', 'contradictory', `the other track gives this crossing ${first.element.angle}°`, ANGLE_HINT)
    return []
  })
}

const NAME_HINT = 'give each a name of its own; only a crossing may stand once on each of its two tracks'
const ANGLE_HINT = 'both tracks of a crossing have the same angle'

function useFaults({ element, path }: Named, { turnoutTypes = [] }: PlanDraft): Fault[] {
  if (element.kind === 'crossing') return []
  const faults: Fault[] = []
  if (element.leaves !== undefined && element.enters !== 'points')
    faults.push({
      path: [...path, 'leaves'],
      code: 'contradictory',
      detail: `a track that enters by the ${element.enters} leg leaves by the points`,
      hint: 'leave out leaves, or give "enters": "points"',
    })
  const ids = turnoutTypes.map((type) => type?.id)
  // A kind that could not be read may be the one meant.
  if (!ids.includes(element.type) && !ids.includes(undefined))
    faults.push({
      path: [...path, 'type'],
      code: 'unknown-value',
      detail: `there is no kind of turnout "${element.type}" in this plan`,
      hint: typeHint(element.type, ids as string[]),
    })
  return faults
}

function typeHint(type: string, ids: readonly string[]): string {
  const meant = meantName(type, ids)
  if (meant !== null) return `did you mean "${meant}"?`
  return ids.length === 0 ? 'list it under turnoutTypes' : `use one of ${ids.map((id) => `"${id}"`).join(', ')}`
}
