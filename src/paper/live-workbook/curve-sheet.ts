import { METALS, SECTION_CODES, TEMPERS } from './choices.ts'
import { RESULT_HEADER, resultRows, type ServiceValue } from './service-values.ts'
import { input, type Layout, title } from './sheet.ts'

const CURVE = { diameter: 'B3', gauge: 'B9' }
const SECTION = { section: 'B6' }
const METAL = { material: 'B7', temper: 'B8' }

const NUMBERS = (['outer', 'inner'] as const).flatMap((rail): ServiceValue[] => [
  {
    label: `Length of the ${rail} rail`,
    unit: 'mm',
    decimals: 2,
    path: `/v1/cell/rail-length?rail=${rail}`,
    words: SECTION,
    measures: { ...CURVE, angle: 'B4' },
  },
  {
    label: `Middle ordinate of the ${rail} rail`,
    unit: 'mm',
    decimals: 2,
    path: `/v1/cell/mid-ordinate?rail=${rail}`,
    words: SECTION,
    measures: { ...CURVE, chord: 'B5' },
  },
  {
    label: `Bend the ${rail} rail to a radius of`,
    unit: 'mm',
    decimals: 2,
    path: `/v1/cell/forming-radius?rail=${rail}`,
    words: { ...SECTION, ...METAL },
    measures: CURVE,
  },
])

const FIRST_RESULT = 12

/**
 * One curve: the length of its rails, their ordinates, and the radius to bend them to so that they spring back to it.
 */
export const CURVE_SHEET: Layout = {
  name: 'One curve',
  widths: [32, 16, 10, 40, 40],
  rows: [
    [title('One curve')],
    [
      'Change the yellow cells. Write lengths with a unit (20 ft, 7 ft 6-1/2 in, 2.4 m); a number alone is millimetres.',
    ],
    ['Diameter', input('20 ft'), 'of the centre line of the track'],
    ['Angle', input(45), 'of the curve, in degrees'],
    ['Chord', input(500), 'held against the rail to measure it'],
    ['Rail section', input('250'), 'its code'],
    ['Metal', input('brass'), 'decides how far to bend the rail'],
    ['Temper', input('half-hard'), 'of that metal'],
    ['Gauge', input(null), 'between the rail heads; 45 mm if empty'],
    [],
    [...RESULT_HEADER],
    ...resultRows(NUMBERS, FIRST_RESULT),
  ],
  choices: [
    { type: 'list', values: SECTION_CODES, range: 'B6' },
    { type: 'list', values: METALS, range: 'B7' },
    { type: 'list', values: TEMPERS, range: 'B8' },
  ],
}
