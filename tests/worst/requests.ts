import { crowdedLine } from '../network/crowded-line.ts'
import * as worst from './worst-plans.ts'

/** Half a kilometre of one curve. */
const WIDE_CIRCLE = { kind: 'arc', radius: 80_000, angle: 359, turn: 'left' }

/** A request that is the worst of one dimension; bodies are made when they are sent. */
export interface WorstRequest {
  readonly name: string
  readonly path: string
  readonly method?: 'GET' | 'POST' | 'PUT'
  readonly headers?: Readonly<Record<string, string>>
  readonly body?: () => string
  /** What has to be there before, done unmeasured; returns the request that is then sent. */
  readonly prepare?: (url: string) => Promise<WorstRequest>
}

const JSON_TYPE = { 'Content-Type': 'application/json' }
const FORM_TYPE = { 'Content-Type': 'application/x-www-form-urlencoded' }

export const posted = (name: string, path: string, value: () => unknown): WorstRequest => ({
  name,
  path,
  method: 'POST',
  headers: JSON_TYPE,
  body: () => JSON.stringify(value()),
})
const estimate = (name: string, plan: () => unknown) => posted(name, '/v1/estimates', plan)

/** As many rows of elements as a form of this size holds. */
function elementFields(count: number): string {
  const fields = ['rail.section=250', 'rail.material=brass', 'tracks.0.name=main', 'do=work']
  for (let n = 0; n < count; n++) fields.push(`tracks.0.elements.${n}.kind=tangent`)
  return fields.join('&')
}

/** A form with complete rows. */
export function straightsForm(count: number): string {
  const fields = ['rail.section=250', 'rail.material=brass', 'tracks.0.name=main', 'do=work']
  for (let n = 0; n < count; n++)
    fields.push(`tracks.0.elements.${n}.kind=tangent`, `tracks.0.elements.${n}.length=${900 + (n % 40)}`)
  return fields.join('&')
}

const ORDINATES = (count: number) =>
  Array.from({ length: count }, (_, n) => (n < 4 || n > count - 5 ? 0 : 12 + ((n * 7) % 5) / 2 - 1))

/** Points that make no curve at all. */
const NOISE = (count: number) => Array.from({ length: count }, (_, n) => ((n * 7919) % 97) / 3)

export const WORST_REQUESTS: readonly WorstRequest[] = [
  estimate('1 km of straight, stagger 500', () => worst.staggered(1_000_000)),
  estimate('3 km of straight, stagger 500', () => worst.staggered(3_000_000)),
  estimate('3 km of straight, stagger 500, thorough', () => worst.staggered(3_000_000, 'thorough')),
  estimate('9 km between ties of 997 mm', () => worst.betweenTies(9_000_000)),
  estimate('320 breaks, stagger 500', () => worst.broken(320)),
  estimate('999 breaks, stagger 500', () => worst.broken(999)),
  estimate('9.9 km, 20 stick lengths', () => worst.manyLengths(9_900_000)),
  estimate('grade line of ±10 km', () => worst.seesaw(10_000_000)),
  estimate('grade line of ±1 m over 100 m', () => worst.seesaw(1_000, 1_999, 100_000)),
  estimate('5,000 radii on 20 chords', () => worst.manyRadii(5_000)),
  estimate('1,000 radii, calibrated', () => worst.calibrated(1_000)),
  estimate('2,000 points of ground', () => worst.hilly(2_000)),
  estimate('5,000 elements', () => worst.winding(5_000)),
  estimate('5,000 elements, thorough', () => worst.winding(5_000, { effort: 'thorough' })),
  estimate('5,000 elements, 200 obstacles, three kinds of car', crowdedLine),
  estimate('5,000 elements, three heavy trains of five kinds of car', () => worst.hauled(5_000)),
  estimate('5,000 elements, 40 pegs', () => worst.pegged(5_000)),
  estimate('30 elements that could be ready-made', () => worst.readyMade(30)),
  estimate('5,000 elements that could be ready-made', () => worst.readyMade(5_000)),
  estimate('200 tracks of 25 elements', () => worst.manyTracks(200, 25)),
  posted('workbook of 5,000 elements', '/v1/workbook.xlsx', () => worst.winding(5_000)),
  posted('sheets of 5,000 elements', '/v1/sheets', () => worst.winding(5_000)),
  posted('5,000 elements in true size', '/v1/sheets?for=line&scale=1', () => worst.winding(5_000)),
  posted('DXF of 5,000 elements', '/v1/drawings/plan.dxf', () => worst.winding(5_000)),
  posted('table of 5,000 radii on 20 chords', '/v1/tables/bends.csv', () => worst.manyRadii(5_000)),
  posted('a yard of 30 tracks of 100 m', '/v1/figures', () => worst.yard(30)),
  posted('a track of 200 easements to be doubled', '/v1/figures', () => worst.doubled(200)),
  posted('pegs of 5,000 curves', '/v1/setting-outs', () => ({ plan: worst.manyRadii(5_000, 2), interval: 100 })),
  posted('8 materials of 600 elements', '/v1/comparisons', () => ({
    plan: worst.winding(600),
    materials: ['brass', 'steel', 'aluminium', 'nickel-silver', 'stainless'].map((material) => ({ material })),
  })),
  posted('cut plan of 500 runs, thorough', '/v1/cut-plans', () => ({
    runs: Array.from({ length: 500 }, (_, n) => ({ length: 700 + ((n * 379) % 2000) })),
    sticks: Array.from({ length: 20 }, (_, n) => ({ length: 900 + n * 97.3, price: (9 + n * 0.83).toFixed(2) })),
    effort: 'thorough',
  })),
  posted('50 tracks of 99 elements to connect with easements', '/v1/fits', () => ({ plan: worst.connections(50, 99) })),
  estimate('50 tracks with three unknowns', () => worst.unknowns(50, 99)),
  posted('survey of 100 points', '/v1/surveys', () => worst.surveyed(92)),
  posted('20 readings without a curve', '/v1/bend-checks', () => ({ chord: 500, readings: NOISE(20) })),
  posted('8 runs of 20 lengths of stick', '/v1/cut-plans', () => ({
    runs: Array.from({ length: 8 }, (_, n) => ({ name: `run ${n}`, length: 700 + n * 777.7 })),
    sticks: Array.from({ length: 20 }, (_, n) => ({ length: 600 + n * 97.3, price: (5 + n * 0.83).toFixed(2) })),
  })),
  posted('a circle of 500 m pegged every 100 mm', '/v1/setting-outs', () => ({
    plan: { rail: { section: '250', material: 'brass' }, tracks: [{ name: 'main', elements: [WIDE_CIRCLE] }] },
    interval: 100,
  })),
  posted('200 readings', '/v1/bend-checks', () => ({ chord: 500, readings: ORDINATES(200) })),
  posted('500 readings', '/v1/bend-checks', () => ({ chord: 500, readings: ORDINATES(500) })),
  posted('500 readings without a curve', '/v1/bend-checks', () => ({ chord: 500, readings: NOISE(500) })),
  {
    name: 'page of 200 readings',
    path: `/check?chord=500&readings=${ORDINATES(200).join('+')}`,
  },
  { name: 'cell of 9.8 km', path: '/v1/cell/sticks?track=S9800m&stick=6ft&stickPrice=10' },
  {
    name: 'form of 200,000 element fields',
    path: '/',
    method: 'POST',
    headers: FORM_TYPE,
    body: () => elementFields(200_000),
  },
  {
    name: 'form of 5,000 straights',
    path: '/',
    method: 'POST',
    headers: FORM_TYPE,
    body: () => straightsForm(5_000),
  },
  {
    name: 'saw sheet of 5,000 straights',
    path: '/sheets/saw',
    method: 'POST',
    headers: FORM_TYPE,
    body: () => straightsForm(5_000),
  },
  {
    name: 'table of 5,000 rows as CSV',
    path: '/v1/estimates?section=250&material=brass',
    method: 'POST',
    headers: { 'Content-Type': 'text/csv' },
    body: () => `kind,length\r\n${'tangent,1000\r\n'.repeat(5_000)}`,
  },
  {
    ...posted('a megabyte of brackets', '/v1/estimates', () => null),
    body: () => `${'['.repeat(500_000)}${']'.repeat(500_000)}`,
  },
  posted('50,000 unknown fields', '/v1/estimates', () =>
    Object.fromEntries(Array.from({ length: 50_000 }, (_, n) => [`field${n}`, n])),
  ),
  posted('5,000 elements with faults', '/v1/estimates', () => ({
    rail: {},
    tracks: [{ name: 'main', elements: Array.from({ length: 5_000 }, () => ({ kind: 'arc', radios: 3, angel: 'x' })) }],
  })),
  { name: 'guide for spreadsheets', path: '/docs/spreadsheets' },
]
