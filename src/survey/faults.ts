import type { Fault } from '../measure/fault.ts'
import { LIMITS } from '../plan/rows/limits.ts'

interface Between {
  readonly from?: string | undefined
  readonly to?: string | undefined | null
}

/** A survey as far as it could be read: null or undefined stands for what could not, and has been reported. */
export interface SurveyDraft {
  readonly pegs: readonly ({ readonly name: string; readonly x: number; readonly y: number } | null)[]
  readonly distances: readonly (Between | null)[]
  readonly levels: readonly (Between | null)[]
  readonly lines: readonly ((Between & { readonly name?: string | undefined }) | null)[]
  readonly points: readonly ({ readonly name: string } | null)[]
}

/** Contradictions between the parts of a survey, before anything is worked out. */
export function surveyFaults(draft: SurveyDraft): Fault[] {
  return [
    ...twice(draft.pegs, 'pegs', 'peg'),
    ...twice(draft.lines, 'lines', 'line'),
    ...twice(draft.points, 'points', 'point'),
    ...samePlaces(draft.pegs),
    ...loops(draft),
    ...sidesOfNothing(draft),
    ...tooMany(draft),
  ]
}

function twice(
  list: readonly ({ readonly name?: string | undefined } | null)[],
  field: 'pegs' | 'lines' | 'points',
  what: string,
): Fault[] {
  const names = list.map((each) => each?.name)
  return names.flatMap((name, index): Fault[] => {
    if (name === undefined || names.indexOf(name) === index) return []
    const detail = `there are two of the name "${name}"`
    return [
      { path: [field, index, 'name'], code: 'contradictory', detail, hint: `give every ${what} a name of its own` },
    ]
  })
}

function samePlaces(pegs: SurveyDraft['pegs']): Fault[] {
  return pegs.flatMap((peg, index): Fault[] => {
    const other = peg && pegs.find((each, at) => at < index && each?.x === peg.x && each.y === peg.y)
    if (!other) return []
    const detail = `"${peg.name}" is at the same place as "${other.name}"`
    return [{ path: ['pegs', index], code: 'contradictory', detail, hint: 'correct x or y, or leave one of them out' }]
  })
}

function loops({ distances, levels, lines }: SurveyDraft): Fault[] {
  return Object.entries({ distances, levels, lines }).flatMap(([field, list]) =>
    list.flatMap((reading, index): Fault[] => {
      // A line may come back to where it began: that checks it.
      if (field === 'lines' || reading?.from === undefined || reading.from !== reading.to) return []
      const detail = `it leads from "${reading.from}" to itself`
      return [{ path: [field, index, 'to'], code: 'contradictory', detail, hint: 'name the other end' }]
    }),
  )
}

function namesMeasured({ distances, levels, lines }: SurveyDraft): Set<string> {
  return new Set(
    [...distances, ...levels, ...lines].flatMap((reading) =>
      [reading?.from, reading?.to].flatMap((name) => name ?? []),
    ),
  )
}

function sidesOfNothing(draft: SurveyDraft): Fault[] {
  const pegs = new Set(draft.pegs.map((peg) => peg?.name))
  const measured = namesMeasured(draft)
  const unread = [...draft.distances, ...draft.levels, ...draft.lines].includes(null)
  return draft.points.flatMap((point, index): Fault[] => {
    if (!point) return []
    const path = ['points', index, 'name']
    if (pegs.has(point.name))
      return [
        { path, code: 'contradictory', detail: `"${point.name}" is a peg: its place is known`, hint: 'leave it out' },
      ]
    if (measured.has(point.name) || unread) return []
    const known = [...measured].filter((name) => !pegs.has(name)).slice(0, 10)
    const hint = known.length > 0 ? `points that were measured: ${known.join(', ')}` : 'measure to it'
    return [{ path, code: 'unknown-value', detail: `no reading leads to "${point.name}"`, hint }]
  })
}

function tooMany(draft: SurveyDraft): Fault[] {
  const names = namesMeasured(draft)
  for (const peg of draft.pegs) if (peg) names.add(peg.name)
  if (names.size <= LIMITS.surveyPoints) return []
  return [
    {
      path: [],
      code: 'too-many',
      detail: `${names.size} pegs and points; at most ${LIMITS.surveyPoints} can be worked out together`,
      hint: 'work out a part of the garden first, and use points of it as pegs for the rest',
    },
  ]
}
