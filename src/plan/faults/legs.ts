import type { Fault } from '../../measure/fault.ts'
import { meantName } from '../fields/nearest.ts'
import type { PlanDraft } from '../reading/draft.ts'
import type { LegPlace, TurnoutEnd } from '../rows/turnouts.ts'
import type { Link } from './link.ts'
import { namedElements } from './turnouts.ts'

/** The tracks that start or end at a turnout, as links to the track it lies on. */
export function linksToLegs(draft: PlanDraft): Link[] {
  const hosts = new Map(
    namedElements(draft)
      .filter(({ element }) => element.kind === 'turnout')
      .map(({ element, track }) => [element.name, track]),
  )
  return legPlaces(draft).map(({ track, field, place, path }) => {
    const name = place.turnout
    return { track, field, name, other: hosts.get(name), path: [...path, 'turnout'] }
  })
}

interface LegUse {
  readonly track: number
  readonly field: 'from' | 'to'
  readonly place: LegPlace
  readonly path: Fault['path']
}

function legPlaces({ tracks }: PlanDraft): LegUse[] {
  return tracks.flatMap((draft, track) => {
    const { from } = draft?.start ?? {}
    const { to } = draft?.end ?? {}
    const use = (field: LegUse['field'], place: LegPlace | undefined, end: 'start' | 'end'): LegUse[] =>
      place === undefined ? [] : [{ track, field, place, path: ['tracks', track, end, field] }]
    return [...use('from', from, 'start'), ...use('to', to, 'end')]
  })
}

export function legFaults({ track, field, name, other, path }: Link, draft: PlanDraft): Fault[] {
  if (other === undefined) {
    // The turnout meant may be an element that could not be read.
    if (draft.tracks.some((each) => each === null || each.elements.includes(null))) return []
    const names = namedElements(draft).flatMap(({ element }) => (element.kind === 'turnout' ? [element.name] : []))
    const meant = meantName(name, names)
    const hint =
      meant !== null
        ? `did you mean "${meant}"?`
        : names.length === 0
          ? 'the plan has no turnout'
          : `use the name of a turnout, such as "${names[0]}"`
    return [{ path, code: 'unknown-value', detail: `there is no turnout "${name}" in this plan`, hint }]
  }
  if (other !== track || field !== 'from') return []
  return [
    {
      path,
      code: 'contradictory',
      detail: 'a track cannot start at a turnout of its own: none of them has a place',
      hint: 'give the start with x, y and heading',
    },
  ]
}

/** Every end of a turnout has one track: that on which it lies has two of them, unless it begins or ends there. */
export function sharedLegFaults(draft: PlanDraft): Fault[] {
  const taken = new Map<string, string>()
  for (const { element, track, path } of namedElements(draft)) {
    if (element.kind !== 'turnout') continue
    const { name, closed, elements } = draft.tracks[track]!
    const index = Number(path.at(-1))
    const called = name === undefined ? 'the track it lies on' : `"${name}"`
    const beyond: TurnoutEnd = element.enters === 'points' ? (element.leaves ?? 'through') : 'points'
    if (index > 0 || closed) taken.set(keyOf(element.name, element.enters), called)
    if (index < elements.length - 1 || closed) taken.set(keyOf(element.name, beyond), called)
  }
  return legPlaces(draft).flatMap(({ track, place, path }): Fault[] => {
    const key = keyOf(place.turnout, place.leg)
    const partner = taken.get(key)
    taken.set(key, `"${draft.tracks[track]?.name ?? 'another track'}"`)
    if (partner === undefined) return []
    return [
      {
        path: [...path, 'leg'],
        code: 'contradictory',
        detail: `the ${place.leg === 'points' ? 'points' : `${place.leg} leg`} of ${place.turnout} already has ${partner}`,
        hint: 'an end of a turnout joins only one track; give another leg',
      },
    ]
  })
}

function keyOf(turnout: string, end: TurnoutEnd): string {
  return JSON.stringify([turnout, end])
}
