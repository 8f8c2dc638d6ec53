import { LENGTH_OR_ZERO } from '../../plan/fields/bounds.ts'
import { overhangOn } from '../../room/overhang.ts'
import { CAR_ON_CURVE, carOnCurve } from '../overhang-answer.ts'
import { choiceParameter, lengthParameter, query } from '../request/query.ts'
import { answerVerticalCurve, GRADES } from '../vertical-curve-answer.ts'
import { type Cell, cell, length, refuse } from './cell.ts'
import { ERRORS } from './errors-option.ts'
import { UNITS } from './units-option.ts'

const about = (description: string) => ({ param: { description } })

const OVERHANG_OF = { inside: 'insideMm', end: 'endMm', corner: 'outsideCornerMm' } as const

const overhang = cell({
  name: 'overhang',
  summary: 'How far a car reaches over the side of a curve, mm',
  description:
    'inside: how far the middle of the car is off the centre line; end: how far the middle of its ends is off it to the outside; corner: how far its corners reach to the outside beyond half its width. The same as GET /v1/overhangs.',
  assumes: 'of=corner',
  query: query({
    ...CAR_ON_CURVE,
    of: choiceParameter('OverhangOf', ['inside', 'end', 'corner'], 'a part of a car')
      .optional()
      .openapi(about('Which part of the car; corner when left out.')),
    units: UNITS,
    errors: ERRORS,
  }),
  searches: false,
  example: 'radius=8ft&length=24in&truckCentres=17in&width=110',
  compute: ({ of = 'corner', units, errors: _, ...car }) => {
    const read = carOnCurve(car)
    return read.ok ? length(overhangOn(read.radiusMm, read.car)[OVERHANG_OF[of]], units) : refuse(...read.faults)
  },
})

const curveElevation = cell({
  name: 'vertical-curve',
  summary: 'Elevation at a station of a vertical curve, mm',
  description: 'On the parabola between two grades: the same as in the points of GET /v1/vertical-curves.',
  assumes: 'that the curve begins at station 0 and elevation 0',
  query: query({
    ...GRADES,
    at: lengthParameter('VerticalCurveStation', LENGTH_OR_ZERO).openapi(about('Station within the curve.')),
    units: UNITS,
    errors: ERRORS,
  }),
  searches: false,
  example: 'gradeIn=2&gradeOut=-1&length=4ft&at=2ft',
  compute: ({ at, units, errors: _, ...grades }) => {
    const answer = answerVerticalCurve({ ...grades, at: [at] })
    return answer.ok ? length(answer.curve.points[0]!.elevationMm, units) : refuse(...answer.faults)
  },
})

export const ROOM_CELLS: readonly Cell[] = [overhang, curveElevation]
