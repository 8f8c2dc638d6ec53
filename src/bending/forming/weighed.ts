import { type LeftToTies, leftToTies } from '../even-bending.ts'
import { type Metal, metalOfTemper } from '../metal.ts'
import type { MethodCase } from '../method.ts'
import { loadedTo, momentNmm } from '../moment-curvature.ts'
import type { SectionProperties } from '../section-properties.ts'
import type { RailToBend } from './rail-to-bend.ts'

/** What the advice on the method weighs that depends only on the radius and the rail. */
export type Weighed = Pick<MethodCase, 'springMomentNmm' | 'setShare' | 'overbendRatio' | 'momentNmm' | 'leftToTiesNmm'>

export interface MetalOfRail {
  readonly metal: Metal
  readonly leftToTies: LeftToTies
}

/** The one metal of a rail, or those of its possible tempers in their order. */
export function metalsOf({ section, metal, tempers }: RailToBend, mostEvenRatio: number): MetalOfRail[] {
  const metals = metal ? [metal] : tempers.map(metalOfTemper)
  return metals.map((each) => ({ metal: each, leftToTies: leftToTies(section, each, mostEvenRatio) }))
}

/** @param formingRadiusMm of that metal for the radius, see `forming` */
export function weigh(
  section: SectionProperties,
  { metal, leftToTies }: MetalOfRail,
  radiusMm: number,
  formingRadiusMm: number,
): Weighed {
  const sprung = loadedTo(section, metal, 1 / radiusMm)
  return {
    springMomentNmm: sprung.momentNmm,
    setShare: sprung.setPerMm * radiusMm,
    overbendRatio: radiusMm / formingRadiusMm,
    momentNmm: momentNmm(section, metal, 1 / formingRadiusMm),
    leftToTiesNmm: leftToTies(radiusMm),
  }
}

/** Where the temper is unknown: the most of any temper, and what the hardest sets, as soft rail only sets more. */
export function worstOf(each: readonly Weighed[]): Weighed {
  const most = (of: (weighed: Weighed) => number) => Math.max(...each.map(of))
  return {
    springMomentNmm: most((weighed) => weighed.springMomentNmm),
    setShare: Math.min(...each.map(({ setShare }) => setShare)),
    overbendRatio: most((weighed) => weighed.overbendRatio),
    momentNmm: most((weighed) => weighed.momentNmm),
    leftToTiesNmm: most((weighed) => weighed.leftToTiesNmm),
  }
}
