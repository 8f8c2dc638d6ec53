import type { Open, Whole, WholeItem } from '../fields/field.ts'
import { choice, count, length, list, name, number, part, shape, variants } from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'

/* Cars, and the trains made up of them. */

const LONGEST_NAME = 100

/** Of one car, loaded; a plan for garden track has nothing heavier. */
const HEAVIEST_KG = 10_000

const kilograms = (says: string) => ({ least: 1e-3, most: HEAVIEST_KG, unit: 'in kg', says }) as const

export const ENGINE = shape(
  'Engine',
  'What makes a car an engine: how it is driven, and what holds its pull back. Its pull is the adhesion of its driven wheels, or tractiveEffortN if that is less.',
  {
    drive: choice({
      component: 'Drive',
      required: true,
      words: {
        steam: 'Steam',
        'track-electric': 'Electric, from the rails',
        battery: 'Electric, from a battery',
        diesel: 'Diesel or petrol',
        clockwork: 'Clockwork',
      },
      what: 'a kind of drive',
      says: 'steam: a live steam engine, which stalls more easily, as its pull is uneven; track-electric: fed from the rails; battery, diesel, clockwork: carries what drives it',
      label: 'Driven by',
    }),
    massOnDriversKg: number({
      component: 'MassOnDriversKg',
      ...kilograms(
        'Mass that stands on the driven wheels, kg; the whole massKg when left out, as if all wheels were driven',
      ),
      label: 'Mass on driven wheels, kg',
      blank: 'all of it',
    }),
    adhesionPct: number({
      component: 'AdhesionPct',
      least: 1,
      most: 100,
      unit: 'in percent',
      says: 'Pull at which the driven wheels slip, percent of the weight on them; 25 when left out (dry rail: 25 to 30, US Army TR 0603; wet or oily rail much less)',
      label: 'Adhesion, %',
      blank: '25 %',
      called: 'adhesion',
    }),
    tractiveEffortN: number({
      component: 'TractiveEffortN',
      least: 1e-3,
      most: 1e5,
      unit: 'in newtons',
      says: 'The greatest pull of the engine itself at its wheels, N, if it gives less than its wheels hold: cylinders, motor or spring',
      label: 'Greatest pull of the engine, N',
      blank: 'enough to slip its wheels',
      called: 'greatest pull',
    }),
    efficiencyPct: number({
      component: 'EfficiencyPct',
      least: 1,
      most: 100,
      unit: 'in percent',
      says: 'Share of the electric power that reaches the wheels, percent; 40 when left out (small motor and gears, common practice, no source)',
      label: 'Efficiency, %',
      blank: '40 %',
      called: 'efficiency',
    }),
  },
)

export const CAR = shape(
  'Car',
  'A kind of car or engine on two trucks: how long and wide its body is, and how far apart its trucks turn.',
  {
    name: name({
      component: 'CarName',
      required: true,
      longest: LONGEST_NAME,
      says: 'Name of this kind of car, unique in the plan',
      label: 'Name',
    }),
    length: length({ required: true, note: 'Length of the body.', label: 'Length' }),
    truckCentres: length({
      required: true,
      note: 'Distance between the pivots of its trucks; of an engine with fixed axles, between the outer ones. No more than length.',
      label: 'Truck centres',
    }),
    width: length({ required: true, note: 'Greatest width.', label: 'Width' }),
    height: length({ note: 'Height above the rails.', label: 'Height' }),
    couplerLength: length({
      may: 'zero or more',
      usual: 0,
      note: 'How far a coupler reaches beyond the end of the body, to where it meets the next one; 0 when left out, as if length were taken over the couplers.',
      label: 'Coupler beyond the body',
    }),
    undersideHeight: length({
      component: 'UndersideHeight',
      says: 'Height above the rails of the lowest thing between the trucks or beyond them, couplers aside; with it, grade changes are checked for cars that touch the track',
      label: 'Underside above the rails',
    }),
    massKg: number({
      component: 'CarMassKg',
      ...kilograms('Mass as it runs, loaded, kg; of an engine with its tender and what it carries'),
      label: 'Mass, kg',
    }),
    rollingResistancePct: number({
      component: 'RollingResistancePct',
      least: 0.01,
      most: 50,
      unit: 'in percent',
      says: 'Rolling resistance on straight level track, percent of the weight: the grade down which it just keeps rolling. 2 when left out (plain bearings in the garden, common practice, no source)',
      label: 'Rolling resistance, %',
      blank: '2 %',
      called: 'rolling resistance',
    }),
    wheelbase: length({
      component: 'RigidWheelbase',
      says: 'Distance between the outer axles of one truck, or of the fixed axles of an engine; for its resistance in curves. 4/3 of the gauge when left out',
      label: 'Wheelbase of a truck',
      blank: '4/3 of the gauge',
    }),
    engine: part(ENGINE, { note: 'Only of an engine.', label: 'Engine' }),
  },
)

const carOfTrain = name({
  component: 'CarOfTrain',
  required: true,
  longest: LONGEST_NAME,
  says: 'The name of one of cars',
  label: 'Car',
})

const CARS_OF_TRAIN = shape('CarsOfTrain', 'So many cars of one kind.', {
  car: carOfTrain,
  count: count({
    component: 'CarCount',
    least: 1,
    most: LIMITS.carsInTrain,
    usual: 1,
    says: 'How many of them, one behind the other',
    label: 'How many',
  }),
})

/** The name of a car, or so many of one kind. */
export const TRAIN_CARS = variants(
  'TrainCars',
  [carOfTrain, CARS_OF_TRAIN] as const,
  (value) => (typeof value === 'object' ? 1 : 0),
  'One car by its name, or so many of one kind.',
)

export const TRAIN = shape('Train', 'An engine and the cars behind it.', {
  name: name({
    component: 'TrainName',
    required: true,
    longest: LONGEST_NAME,
    says: 'Name of this train, unique in the plan',
    label: 'Name',
  }),
  engine: name({
    component: 'EngineName',
    required: true,
    longest: LONGEST_NAME,
    says: 'The name of one of cars: the engine is a row there too',
    label: 'Engine',
  }),
  cars: list(TRAIN_CARS, {
    most: LIMITS.carKindsInTrain,
    note: 'The cars in their order; none when left out.',
    label: 'Cars',
    entry: 'entry',
  }),
  speedMPerS: number({
    component: 'SpeedMPerS',
    least: 1e-3,
    most: 20,
    unit: 'in metres per second',
    says: 'Speed uphill, m/s, for the power it draws',
    label: 'Speed uphill, m/s',
    called: 'speed',
  }),
})

export interface Engine extends Whole<typeof ENGINE.fields> {}
export interface CarInput extends Open<typeof CAR.fields> {}
export interface Car extends Whole<typeof CAR.fields> {}
export interface TrainInput extends Open<typeof TRAIN.fields> {}
export interface Train extends Whole<typeof TRAIN.fields> {}
export type TrainCars = WholeItem<typeof TRAIN_CARS>
