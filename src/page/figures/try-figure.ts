import type { FigureAnswer, WorkedFigure } from '../../estimate/questions/figure.ts'
import { readFigure } from '../../estimate/questions/read-figure.ts'
import type { Fault } from '../../measure/fault.ts'
import type { FigureName } from '../../plan/rows/figures.ts'
import type { Workers } from '../../workers/workers.ts'
import type { WorkedPlan } from '../pages/worked-plan.ts'
import { type FigureButton, type FiguresTyped, figureAsTyped } from './figure-fields.ts'
import { type FigurePlace, inTheMiddle, listIn, placeFor, withFigureAt } from './place-in-plan.ts'

/** A figure as the page shows it before it is put in. */
export interface FigureTried {
  readonly figure: FigureName
  /** Null where it has faults. */
  readonly worked: (WorkedFigure & { readonly ok: true }) | null
  /** At the fields of the figure, or of its place. */
  readonly faults: readonly Fault[]
}

type Wire = Readonly<Record<string, unknown>>

/** Works out a figure for its place in a plan; with `put` also the plan with the figure in it. */
export function tryFigure(
  { verb, figure }: FigureButton,
  typed: FiguresTyped,
  plan: Wire,
  worked: WorkedPlan,
  workers: Workers,
): { readonly tried: FigureTried; readonly plan: Record<string, unknown> | null } {
  const refused = (...faults: readonly Fault[]) => ({ tried: { figure, worked: null, faults }, plan: null })
  const found = placeFor(figure, typed, worked.estimate.tracks)
  if (!found.ok) return refused(found.fault)
  const turnoutTypes = [...listIn(plan, 'turnoutTypes'), ...kindsToAdd(figure, typed, plan)]
  const ask = ({ track, start }: FigurePlace, prefix: string): WorkedFigure => {
    const elements =
      figure === 'parallel' ? { elements: listIn(listIn(plan, 'tracks')[track], 'elements') } : { turnoutTypes }
    const given = Object.fromEntries(SAME.flatMap((name) => (plan[name] === undefined ? [] : [[name, plan[name]]])))
    const request = {
      ...given,
      ...figureAsTyped(typed, figure),
      figure,
      start,
      prefix,
      ...elements,
    }
    const read = readFigure(request)
    return read.ok ? workers.figure(read.question) : read
  }
  const first = ask(found.place, '')
  if (!first.ok) return refused(...first.faults)
  const lengthMm = figure === 'parallel' ? 0 : first.estimate.tracks[0]!.lengthMm
  const place = inTheMiddle(found.place, lengthMm)
  if ('code' in place) return refused(place)
  const prefix = unusedPrefix(
    plan,
    figure === 'parallel' ? withoutMain(first.answer) : first.answer.tracks.map(besideMain),
  )
  const second = place === found.place && prefix === '' ? first : ask(place, prefix)
  if (!second.ok) return refused(...second.faults)
  const tried: FigureTried = { figure, worked: second, faults: [] }
  if (verb === 'show') return { tried, plan: null }
  const tracks = figure === 'parallel' ? withoutMain(second.answer) : second.answer.tracks
  return {
    tried,
    plan: withFigureAt(plan, place, {
      tracks,
      lengthMm,
      turnoutTypes: figure === 'parallel' ? listIn(plan, 'turnoutTypes') : turnoutTypes,
    }),
  }
}

/** What a figure has from the plan it is put into. */
const SAME = ['gauge', 'rail', 'standards', 'power'] as const

/** Of its first track the elements alone are put into the plan. */
function besideMain(track: Wire, index: number): Wire {
  return index === 0 ? { elements: track.elements } : track
}

/** The track that is doubled is in the plan already. */
function withoutMain({ tracks }: FigureAnswer): Wire[] {
  return [{ elements: [] }, ...tracks.slice(1)]
}

const HANDS_OF: Readonly<Record<FigureName, 'side' | 'both' | 'none'>> = {
  crossover: 'side',
  ladder: 'both',
  'passing-loop': 'both',
  'reverse-loop': 'side',
  wye: 'both',
  parallel: 'none',
  junction: 'side',
}

/** Kinds of turnout of the hands that the figure needs and the plan has none of, with the frog number that was typed. */
function kindsToAdd(figure: FigureName, typed: FiguresTyped, plan: Wire): Wire[] {
  const { side } = figureAsTyped(typed, figure)
  const hands = { side: [side === 'right' ? 'right' : 'left'], both: ['left', 'right'], none: [] }[HANDS_OF[figure]]
  const kinds = listIn(plan, 'turnoutTypes')
  const number = Number(typed.number.trim().replace(',', '.'))
  return hands
    .filter((hand) => !kinds.some((kind) => kind.hand === hand))
    .map((hand) => ({
      id: unusedName(
        `No. ${typed.number.trim()} ${hand}`,
        kinds.map(({ id }) => id),
      ),
      hand,
      number,
    }))
}

function unusedName(name: string, used: readonly unknown[]): string {
  let free = name
  for (let n = 2; used.includes(free); n++) free = `${name} (${n})`
  return free
}

/** What makes the names of a figure differ from all there are: nothing, or the first number that does. */
function unusedPrefix(plan: Wire, tracks: readonly Wire[]): string {
  const used = new Set(namesIn(listIn(plan, 'tracks')))
  const names = namesIn(tracks)
  for (let n = 1; ; n++) {
    const prefix = n === 1 ? '' : `${n}-`
    if (!names.some((name) => used.has(`${prefix}${name}`))) return prefix
  }
}

/** Of the tracks, and of their turnouts and crossings. */
function namesIn(tracks: readonly Wire[]): unknown[] {
  return tracks.flatMap((track) => [
    ...(track.name === undefined ? [] : [track.name]),
    ...listIn(track, 'elements').flatMap(({ name }) => (name === undefined ? [] : [name])),
  ])
}
