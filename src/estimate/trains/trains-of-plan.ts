import type { Block } from '../../hauling/pull.ts'
import { curveResistanceMm, GRAVITY_M_S2, measuredCurveResistanceMm } from '../../hauling/resistance.ts'
import { adhesionN, type CarsBehind, type HauledTrain, tractiveEffortN } from '../../hauling/train.ts'
import { formatMm } from '../../measure/length.ts'
import { sum } from '../../measure/sum.ts'
import type { Assumption } from '../../plan/fields/assumption.ts'
import type { Car, Engine, Train } from '../../plan/rows/cars.ts'
import type { Plan } from '../plan.ts'

/** Where the plan does not say. */
export const USUAL_OF_TRAINS = {
  rollingResistancePct: 2,
  adhesionPct: 25,
  efficiencyPct: 40,
  wheelbasesPerGauge: 4 / 3,
} as const

/** A train whose masses are known. */
export interface TrainOfPlan {
  readonly name: string
  /** Its index in the plan. */
  readonly index: number
  readonly drive: Engine['drive']
  readonly hauled: HauledTrain
  readonly limitedBy: 'adhesion' | 'engine'
  readonly massKg: number
  readonly lengthMm: number
  readonly cars: number
  readonly speedMPerS: number | null
  /** Share of the electric power that reaches the wheels. */
  readonly efficiency: number
}

export interface TrainsOfPlan {
  readonly trains: readonly TrainOfPlan[]
  /** Trains that say something of their weight or engine, but not enough, and what is missing. */
  readonly unknown: readonly { readonly name: string; readonly missing: string }[]
  readonly assumptions: readonly Assumption[]
}

interface CurveOf {
  readonly gauge: number
  readonly standards: Pick<Plan['standards'], 'curveResistancePct' | 'curveResistanceRadius'>
}

type OfTrains = Pick<Plan, 'cars' | 'trains' | 'standards' | 'gauge'>

/** The trains of a plan as far as it says what they weigh and what drives them. */
export function trainsOfPlan(plan: OfTrains): TrainsOfPlan {
  const fleet = new Fleet(plan)
  const known: TrainOfPlan[] = []
  const unknown: { name: string; missing: string }[] = []
  for (const [index, train] of plan.trains.entries()) {
    const missing = fleet.missingFrom(train)
    if (missing === null) known.push(fleet.train(train, index))
    else if (fleet.saysAnything(train)) unknown.push({ name: train.name, missing })
  }
  return { trains: known, unknown, assumptions: fleet.assumptions }
}

/** Of all trains of a plan, their masses known or not; 0 without any. */
export function longestTrainMm({ fleet }: Pick<Plan, 'fleet'>): number {
  return Math.max(0, ...fleet.trains.map(({ lengthMm }) => lengthMm))
}

/** Curve resistance of cars with this wheelbase, as a length: what was measured in the garden goes for all. */
export function curveResistanceOf({ gauge, standards }: CurveOf, wheelbaseMm: number | null): number {
  const { curveResistancePct: extraPct, curveResistanceRadius: radiusMm } = standards
  return extraPct !== null && radiusMm !== null
    ? measuredCurveResistanceMm({ extraPct, radiusMm })
    : curveResistanceMm(gauge, wheelbaseMm ?? USUAL_OF_TRAINS.wheelbasesPerGauge * gauge)
}

class Fleet {
  readonly assumptions: Assumption[] = []
  private readonly plan: OfTrains
  private readonly assumed = new Set<string>()

  constructor(plan: OfTrains) {
    this.plan = plan
  }

  /** What has to be known of a train and is not; null if nothing is missing. */
  missingFrom(train: Train): string | null {
    const { car: engine } = this.called(train.engine)
    if (!engine.engine) return `what drives ${engine.name} (cars[].engine)`
    const without = this.kindsOf(train).find(({ massKg }) => massKg === null)
    return without ? `the mass of ${without.name} (cars[].massKg)` : null
  }

  saysAnything(train: Train): boolean {
    return this.kindsOf(train).some(({ engine, massKg }) => engine !== null || massKg !== null)
  }

  train(train: Train, index: number): TrainOfPlan {
    const { car, at } = this.called(train.engine)
    const engine = car.engine!
    const behind = this.behind(train)
    const ofEngine = `/cars/${at}/engine`
    const massKg = car.massKg!
    if (engine.massOnDriversKg === null)
      this.assume(`${ofEngine}/massOnDriversKg`, `${massKg} kg`, 'as if all wheels were driven')
    const adhesion =
      this.usual(
        engine.adhesionPct,
        USUAL_OF_TRAINS.adhesionPct,
        `${ofEngine}/adhesionPct`,
        'dry rail (US Army TR 0603)',
      ) / 100
    const onDriversKg = Math.min(engine.massOnDriversKg ?? massKg, massKg)
    const holdingN = adhesionN(onDriversKg, adhesion)
    const pullN = tractiveEffortN(onDriversKg, adhesion, engine.tractiveEffortN)
    const drawsPower = isElectric(engine.drive) && train.speedMPerS !== null
    const efficiencyPct = drawsPower
      ? this.usual(
          engine.efficiencyPct,
          USUAL_OF_TRAINS.efficiencyPct,
          `${ofEngine}/efficiencyPct`,
          'small motor and gears, common practice, no source',
        )
      : 100
    const hauled = { engine: this.block(car, at), behind, tractiveEffortN: pullN, holdingN }
    return {
      name: train.name,
      index,
      drive: engine.drive,
      hauled,
      limitedBy: pullN < holdingN ? 'engine' : 'adhesion',
      massKg: massKg + sum(behind.map(({ count, car: each }) => (count * each.weightN) / GRAVITY_M_S2)),
      lengthMm: hauled.engine.lengthMm + sum(behind.map(({ count, car: each }) => count * each.lengthMm)),
      cars: sum(behind.map(({ count }) => count)),
      speedMPerS: train.speedMPerS,
      efficiency: efficiencyPct / 100,
    }
  }

  /** Neighbours of one kind together. */
  private behind({ cars }: Train): CarsBehind[] {
    const kinds: { name: string; count: number }[] = []
    for (const entry of cars) {
      const { car: name, count } = typeof entry === 'string' ? { car: entry, count: 1 } : entry
      const last = kinds.at(-1)
      if (last?.name === name) last.count += count
      else kinds.push({ name, count })
    }
    return kinds.map(({ name, count }) => {
      const { car, at } = this.called(name)
      return { count, car: this.block(car, at) }
    })
  }

  private block(car: Car, at: number): Block {
    const { standards, gauge } = this.plan
    const rollingPct = this.usual(
      car.rollingResistancePct,
      USUAL_OF_TRAINS.rollingResistancePct,
      `/cars/${at}/rollingResistancePct`,
      'plain bearings in the garden, common practice, no source: measure it',
    )
    if (car.wheelbase === null && standards.curveResistancePct === null)
      this.assume(
        `/cars/${at}/wheelbase`,
        formatMm(USUAL_OF_TRAINS.wheelbasesPerGauge * gauge, 4),
        '4/3 of the gauge, own choice, no source',
      )
    return {
      lengthMm: car.length + 2 * car.couplerLength,
      weightN: car.massKg! * GRAVITY_M_S2,
      rolling: rollingPct / 100,
      curveMm: curveResistanceOf(this.plan, car.wheelbase),
    }
  }

  private kindsOf({ engine, cars }: Train): Car[] {
    const names = [engine, ...cars.map((entry) => (typeof entry === 'string' ? entry : entry.car))]
    return names.map((name) => this.called(name).car)
  }

  private called(name: string): { car: Car; at: number } {
    const at = this.plan.cars.findIndex((car) => car.name === name)
    return { car: this.plan.cars[at]!, at }
  }

  private usual(given: number | null, usual: number, field: string, reason: string): number {
    if (given === null) this.assume(field, `${usual} %`, reason)
    return given ?? usual
  }

  /** Once for a car, however many trains it is in. */
  private assume(field: string, value: string, reason: string): void {
    if (this.assumed.has(field)) return
    this.assumed.add(field)
    this.assumptions.push({ field, value, reason })
  }
}

export function isElectric(drive: Engine['drive']): boolean {
  return drive === 'track-electric' || drive === 'battery'
}
