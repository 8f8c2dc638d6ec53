import type { Open, Whole, WholeItem } from '../fields/field.ts'
import { count, length, list, name, shape, variants } from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'

/* Cars, and the trains made up of them. */

const LONGEST_NAME = 100

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
})

export interface CarInput extends Open<typeof CAR.fields> {}
export interface Car extends Whole<typeof CAR.fields> {}
export interface TrainInput extends Open<typeof TRAIN.fields> {}
export interface Train extends Whole<typeof TRAIN.fields> {}
export type TrainCars = WholeItem<typeof TRAIN_CARS>
