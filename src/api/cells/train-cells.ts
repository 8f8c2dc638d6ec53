import { curveResistanceOf, USUAL_OF_TRAINS } from '../../estimate/trains/trains-of-plan.ts'
import { carsOnEvenHill } from '../../hauling/even-grade.ts'
import { GRAVITY_M_S2 } from '../../hauling/resistance.ts'
import { tractiveEffortN as pullOf, WEATHER_SHARE } from '../../hauling/train.ts'
import { LENGTH } from '../../plan/fields/bounds.ts'
import { CAR, ENGINE } from '../../plan/rows/cars.ts'
import { USUAL } from '../../plan/usual.ts'
import { choiceParameter, lengthParameter, numberParameter, parameterOf, query } from '../request/query.ts'
import { type Cell, cell, number } from './cell.ts'
import { ERRORS } from './errors-option.ts'

const about = (description: string) => ({ param: { description } })

const MASS_KG = { least: 1e-3, most: 1e4 }
const GRADE_PCT = { least: 0, most: 100 }

const { rollingResistancePct, adhesionPct } = USUAL_OF_TRAINS
const ASSUMED = `all wheels driven, an adhesion of ${adhesionPct} %, a rolling resistance of ${rollingResistancePct} %, damp weather with ${100 * WEATHER_SHARE} % of the pull, and straight track; with a radius a gauge of ${USUAL.gauge} mm and trucks with a wheelbase of 4/3 of it`

const carsUpGrade = cell({
  name: 'cars-up-grade',
  summary: 'Cars an engine takes up a grade and round a curve',
  description:
    'On a hill longer than the train, of one grade and one radius: the same as takes of a train in an estimate there. 0 where the engine does not get up alone.',
  assumes: ASSUMED,
  query: query({
    engineMassKg: numberParameter('HaulingEngineMass', MASS_KG).openapi(
      about('Mass of the engine, tender included, kg.'),
    ),
    carMassKg: numberParameter('HauledCarMass', MASS_KG).openapi(about('Mass of one car, loaded, kg.')),
    grade: numberParameter('HauledGrade', GRADE_PCT).openapi(about('Grade, percent: rise over level run.')),
    radius: lengthParameter('HauledRadius', LENGTH)
      .optional()
      .openapi(about('Radius of the centre line; straight when left out.')),
    massOnDriversKg: parameterOf('HaulingMassOnDrivers', ENGINE.fields.massOnDriversKg),
    adhesionPct: parameterOf('HaulingAdhesion', ENGINE.fields.adhesionPct),
    tractiveEffortN: parameterOf('HaulingTractiveEffort', ENGINE.fields.tractiveEffortN),
    rollingResistancePct: parameterOf('HauledRollingResistance', CAR.fields.rollingResistancePct),
    wheelbase: parameterOf('HauledWheelbase', CAR.fields.wheelbase),
    gauge: lengthParameter('HauledGauge', LENGTH)
      .optional()
      .openapi(about(`Gauge, for the resistance of the curve; ${USUAL.gauge} mm when left out.`)),
    weather: choiceParameter('HaulingWeather', ['damp', 'dry'], 'a weather')
      .optional()
      .openapi(about('damp: 80 % of the pull (US Army TR 0603), when left out; dry: all of it.')),
    errors: ERRORS,
  }),
  searches: false,
  example: 'engineMassKg=6&massOnDriversKg=4&carMassKg=2.5&grade=2&radius=3m',
  compute: (asked) => {
    const { engineMassKg, carMassKg, grade, radius, gauge = USUAL.gauge, weather = 'damp' } = asked
    const standards = { curveResistancePct: null, curveResistanceRadius: null }
    const alike = {
      rolling: (asked.rollingResistancePct ?? rollingResistancePct) / 100,
      curveMm: curveResistanceOf({ gauge, standards }, asked.wheelbase ?? null),
    }
    const onDriversKg = Math.min(asked.massOnDriversKg ?? engineMassKg, engineMassKg)
    const dryN = pullOf(onDriversKg, (asked.adhesionPct ?? adhesionPct) / 100, asked.tractiveEffortN ?? null)
    return number(
      carsOnEvenHill({
        engine: { ...alike, weightN: engineMassKg * GRAVITY_M_S2 },
        car: { ...alike, weightN: carMassKg * GRAVITY_M_S2 },
        grade: grade / 100,
        curvature: radius === undefined ? 0 : 1 / radius,
        pullN: weather === 'damp' ? WEATHER_SHARE * dryN : dryN,
      }),
    )
  },
})

export const TRAIN_CELLS: readonly Cell[] = [carsUpGrade]
