import { LENGTH } from '../../plan/fields/bounds.ts'
import { answerBends } from '../bends-answer.ts'
import { BendsQuery } from '../request/bends-query.ts'
import { choiceParameter, lengthParameter, numberParameter, query } from '../request/query.ts'
import { ASSUMED_CURVE, type Cell, cell, length, refuse } from './cell.ts'
import { ERRORS } from './errors-option.ts'
import { UNITS } from './units-option.ts'

const {
  radius,
  diameter,
  section,
  material,
  temper,
  gauge,
  resolution: _,
  chord: __,
  refresh: ___,
  ...bender
} = BendsQuery.shape
const about = (description: string) => ({ param: { description } })

const rail = choiceParameter('CurveRail', ['outer', 'inner'], 'a rail of a curve')
  .optional()
  .openapi(about('Which rail; outer when left out.'))

const midOrdinate = cell({
  name: 'mid-ordinate',
  summary: 'Ordinate at the middle of a chord, mm',
  description: 'For one rail of a curve, on the concave side of its head: the same as midMm of GET /v1/bends.',
  assumes: ASSUMED_CURVE,
  query: query({
    radius,
    diameter,
    chord: lengthParameter('CellChord', LENGTH).openapi(about('Length of the chord to measure on.')),
    rail,
    section,
    gauge,
    units: UNITS,
    errors: ERRORS,
  }),
  searches: false,
  example: 'diameter=20ft&chord=500',
  compute: ({ rail: wanted = 'outer', chord, units, errors: _, ...curve }) => {
    const answer = answerBends({ ...curve, chord: [chord] })
    if (!answer.ok) return refuse(...answer.faults)
    return length(answer.bends.rails.find((each) => each.rail === wanted)!.ordinates[0]!.midMm, units)
  },
})

const formingRadius = cell({
  name: 'forming-radius',
  summary: 'Radius to bend a rail to so that it springs back to the one wanted, mm',
  description:
    'For one rail, under load: the same as formingRadiusMm of GET /v1/bends. Refused if only a range is known.',
  assumes: ASSUMED_CURVE,
  query: query({ radius, diameter, rail, section, material, temper, gauge, ...bender, units: UNITS, errors: ERRORS }),
  searches: false,
  example: 'diameter=20ft&material=brass&temper=half-hard',
  compute: ({ rail: wanted = 'outer', units, errors: _, ...curve }) => {
    const missing = curve.material === undefined && curve.temper === undefined
    const answer = answerBends(curve)
    const faults = [
      ...(missing
        ? [
            {
              parameter: 'material',
              code: 'missing' as const,
              detail: 'this parameter is required',
              hint: 'such as material=brass',
            },
          ]
        : []),
      ...(answer.ok ? [] : answer.faults),
    ]
    if (faults.length > 0 || !answer.ok) return refuse(...faults)
    const { forming } = answer.bends.rails.find((each) => each.rail === wanted)!
    if (forming?.formingRadiusMm != null) return length(forming.formingRadiusMm, units)
    const { lowMm, highMm } = forming!.band
    return refuse({
      parameter: 'temper',
      code: 'missing',
      detail: `without the temper the radius can be from ${lowMm.toFixed(0)} to ${highMm.toFixed(0)} mm`,
      hint: `give temper, such as temper=${forming!.tempers[0]?.temper ?? 'half-hard'}`,
    })
  },
})

/** The usual length of the level: 4 ft. */
const USUAL_LEVEL_MM = 1219.2

/**
 * A level of length L is held horizontally over track on a grade g (rise over level run, percent) with one end on the rail
 * head. Under its other end the rail is lower by
 *
 * h = L·g/100
 *
 * since L is the level run. Closed form; checked in tests/api/cells.test.ts.
 */
const levelRise = cell({
  name: 'level-rise',
  summary: 'Height of the block under the low end of a level, mm',
  description:
    'A spirit level along a rail on a grade is level when a block of this height is under its lower end: length × grade. Negative for a falling grade.',
  assumes: 'a level of 4 ft',
  query: query({
    grade: numberParameter('CellGrade', { least: -100, most: 100 }).openapi(
      about('The grade, percent: rise over level run, as in a plan.'),
    ),
    length: lengthParameter('LevelLength', LENGTH)
      .optional()
      .openapi(about('Length of the level; 4 ft when left out.')),
    units: UNITS,
    errors: ERRORS,
  }),
  searches: false,
  example: 'grade=2&length=4ft',
  compute: ({ grade, length: levelMm = USUAL_LEVEL_MM, units }) => length((levelMm * grade) / 100, units),
})

export const CURVE_CELLS: readonly Cell[] = [midOrdinate, formingRadius, levelRise]
