import { ORIGIN_KEYS } from '../origin.ts'
import { type LengthsIn, tableOf } from '../table.ts'
import { ELEMENT_COLUMNS } from '../tables/elements.ts'
import type { ColumnRead } from './cell-value.ts'

/*
 * The table of elements that this service gives out, as it comes in again: by the keys of its CSV or the titles of its
 * sheet, in any unit.
 */

/** What its columns are read as; the others are worked out again. */
const READ_AS: Readonly<Record<string, Pick<ColumnRead, 'name' | 'kind'>>> = {
  track: { name: 'track', kind: 'text' },
  state: { name: 'state', kind: 'text' },
  kind: { name: 'kind', kind: 'word' },
  label: { name: 'label', kind: 'text' },
  lengthMm: { name: 'length', kind: 'length' },
  radiusMm: { name: 'radius', kind: 'length' },
  angleDeg: { name: 'angle', kind: 'angle' },
  turn: { name: 'turn', kind: 'word' },
  name: { name: 'name', kind: 'text' },
  type: { name: 'type', kind: 'text' },
  enters: { name: 'enters', kind: 'word' },
  leaves: { name: 'leaves', kind: 'word' },
  crossingAngleDeg: { name: 'crossingAngle', kind: 'angle' },
  startXMm: { name: 'x', kind: 'length' },
  startYMm: { name: 'y', kind: 'length' },
  startHeadingDeg: { name: 'heading', kind: 'angle' },
}

type OwnColumn = Omit<ColumnRead, 'index'> | 'worked-out'

const UNITS: readonly (readonly [LengthsIn, string | null])[] = [
  ['mm', 'mm'],
  ['in', 'in'],
  [{ partsOfInch: 64 }, null],
]

/** By key and by title, in lower case. */
const OWN_COLUMNS: ReadonlyMap<string, OwnColumn> = new Map([
  ...ORIGIN_KEYS.map((key): [string, OwnColumn] => [key, 'worked-out']),
  ...UNITS.flatMap(([lengthsIn, unit]) =>
    tableOf('elements', '', ELEMENT_COLUMNS, [], lengthsIn).columns.flatMap(({ key, title }, index) => {
      const read = READ_AS[ELEMENT_COLUMNS[index]!.key]
      const own: OwnColumn = read ? { ...read, unit: read.kind === 'length' ? unit : null } : 'worked-out'
      return [key, title].map((each): [string, OwnColumn] => [each.toLowerCase(), own])
    }),
  ),
])

const STATIONS = ['fromMm', 'toMm', 'fromIn', 'toIn', 'fromFtIn', 'toFtIn'].map((key) => key.toLowerCase())
const STATION_TITLES = ['From', 'To'].flatMap((name) =>
  ['mm', 'in', 'ft, in'].map((unit) => `${name} (${unit})`.toLowerCase()),
)

/** Whether a header is that of the table of elements: only it has stations beside the kind of an element. */
export function isElementsTable(header: readonly string[]): boolean {
  const names = new Set(header.map((cell) => cell.trim().toLowerCase()))
  return [STATIONS, STATION_TITLES].some((known) => known.filter((name) => names.has(name)).length === 2)
}

/** What a column of the table of elements is read as; undefined where it is none. */
export function ownColumn(header: string): OwnColumn | undefined {
  return OWN_COLUMNS.get(header.trim().toLowerCase())
}
