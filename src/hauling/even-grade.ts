import type { Block } from './pull.ts'
import { type CarsBehind, PULL_SLACK } from './train.ts'

/** An engine on a hill longer than its train, of one grade and one curve. */
export interface EvenHill {
  readonly engine: Pick<Block, 'weightN' | 'rolling' | 'curveMm'>
  readonly car: Pick<CarsBehind['car'], 'weightN' | 'rolling' | 'curveMm'>
  /** Rise over level run; 0 or more. */
  readonly grade: number
  /** 1/radius, per mm; 0 on straight track. */
  readonly curvature: number
  readonly pullN: number
}

/**
 * Cars that an engine takes up a grade in a curve: n = ⌊(T − W·(r + i + c/R)) / (w·(r′ + i + c′/R))⌋, at least 0
 *
 * T pull of the engine, W its weight and w that of a car, N; r, r′ rolling resistance and i grade, shares of the weight;
 * c, c′ curve resistance, mm (see `curveResistanceMm`), R radius, mm. Range: i ≥ 0, r′ > 0. It follows from the sum of
 * resistances as in US Army TR 0603, §2.10; checked by hand, and beside `carsTaken` on such a hill, in
 * tests/hauling/even-grade.test.ts.
 */
export function carsOnEvenHill({ engine, car, grade, curvature, pullN }: EvenHill): number {
  const resistance = ({ rolling, curveMm }: EvenHill['engine']) => rolling + grade + curveMm * curvature
  const leftN = pullN * (1 + PULL_SLACK) - engine.weightN * resistance(engine)
  return Math.max(0, Math.floor(leftN / (car.weightN * resistance(car))))
}
