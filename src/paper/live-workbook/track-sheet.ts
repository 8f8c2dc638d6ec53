import { KINDS, METALS, SECTION_CODES, TURNS } from './choices.ts'
import { RESULT_HEADER, resultRows, type ServiceValue } from './service-values.ts'
import { aside, type Content, header, input, type Layout, type Styled, title } from './sheet.ts'
import { elementWord, trackWord } from './track-words.ts'

/** The most elements that can be entered; they fit in an address whatever their lengths. */
const MOST_ELEMENTS = 40

const RAIL = { section: 'B3', material: 'B4' }
const STICKS = { stick: 'B5', stickPrice: 'B6' }
const SHAPE = { closed: 'B8', track: 'B9' }

const FIRST_RESULT = 12

const NUMBERS: readonly ServiceValue[] = [
  {
    label: 'Rail, both sides together',
    unit: 'mm',
    decimals: 2,
    path: '/v1/cell/rail-length',
    words: { section: 'B3', track: 'B9' },
    measures: {},
  },
  { label: 'Ties', unit: '', decimals: 0, path: '/v1/cell/ties', words: SHAPE, measures: { tieSpacing: 'B7' } },
  {
    label: 'Sticks of rail',
    unit: '',
    decimals: 0,
    path: '/v1/cell/sticks',
    words: { ...RAIL, ...SHAPE },
    measures: STICKS,
  },
  {
    label: 'Rail joiners',
    unit: '',
    decimals: 0,
    path: '/v1/cell/joiners',
    words: { ...RAIL, ...SHAPE },
    measures: STICKS,
  },
  {
    label: 'Cost of the rail',
    unit: '',
    decimals: 2,
    path: '/v1/cell/cost?unpriced=leave-out',
    words: { ...RAIL, ...SHAPE },
    measures: STICKS,
  },
]

const HEADER_ROW = FIRST_RESULT + NUMBERS.length + 1
const FIRST_ELEMENT = HEADER_ROW + 1
const LAST_ELEMENT = HEADER_ROW + MOST_ELEMENTS
const ROWS = Array.from({ length: MOST_ELEMENTS }, (_, index) => FIRST_ELEMENT + index)

/** Kind, length, diameter, angle, turn. */
const EXAMPLE: readonly (readonly (string | number | null)[])[] = [
  ['tangent', '6 ft', null, null, null],
  ['easement', '2 ft', null, null, null],
  ['arc', null, '18 ft', 45, 'left'],
  ['easement', '2 ft', null, null, null],
  ['tangent', '1.2 m', null, null, null],
]

/** A track as rows of elements, and its materials. */
export const TRACK_SHEET: Layout = {
  name: 'Track',
  widths: [26, 16, 14, 30, 22, 30, 22],
  rows: [
    [title('A track')],
    ['Enter its elements below, one per row, and its materials here. Empty cells take the usual value.'],
    ['Rail section', input('250')],
    ['Metal', input('brass')],
    ['Length of a stick', input('6 ft')],
    ['Price of a stick', input(14.5)],
    ['Ties, centre to centre', input(null), '45 mm if empty'],
    ['Closed', input(null), 'yes for a loop'],
    ['Track as one word', aside(trackWord(ROWS.map((row) => `G${row}`)))],
    [],
    [...RESULT_HEADER],
    ...resultRows(NUMBERS, FIRST_RESULT),
    [],
    ['Kind', 'Length', 'Diameter', 'Angle', 'Turn', 'Your note', 'As one word'].map(header),
    ...ROWS.map((row, index) => elementRow(row, EXAMPLE[index] ?? [])),
  ],
  choices: [
    { type: 'list', values: SECTION_CODES, range: 'B3' },
    { type: 'list', values: METALS, range: 'B4' },
    { type: 'list', values: ['yes', 'no'], range: 'B8' },
    { type: 'list', values: KINDS, range: `A${FIRST_ELEMENT}:A${LAST_ELEMENT}` },
    { type: 'list', values: TURNS, range: `E${FIRST_ELEMENT}:E${LAST_ELEMENT}` },
  ],
}

function elementRow(row: number, given: readonly (string | number | null)[]): (Content | Styled)[] {
  const word = elementWord({
    kind: `A${row}`,
    length: `B${row}`,
    diameter: `C${row}`,
    angle: `D${row}`,
    turn: `E${row}`,
  })
  const cells = Array.from({ length: 6 }, (_, column) => input(given[column] ?? null))
  return [...cells, aside(word)]
}
