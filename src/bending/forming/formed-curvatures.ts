import { type Metal, withYield } from '../metal.ts'
import type { SectionProperties } from '../section-properties.ts'
import { formingCurvature } from '../springback.ts'
import type { RailToBend } from './rail-to-bend.ts'

/** The curvature to bend to, per mm, for a wanted one ≥ 0. */
type FormingCurvature = (wantedPerMm: number) => number

/** Of a rail with one metal: at its yield, and at the limits within which the yield may be. */
export interface FormedAtYields {
  readonly nominal: FormingCurvature
  readonly low: FormingCurvature
  readonly high: FormingCurvature
}

/** Null where there is no single yield. */
export function formedAtYields({ section, metal, yields }: RailToBend): FormedAtYields | null {
  if (!metal || !yields) return null
  const at = (yieldMpa: number) => formedCurvatures(section, withYield(metal, yieldMpa))
  return { nominal: formedCurvatures(section, metal), low: at(yields.lowMpa), high: at(yields.highMpa) }
}

/** About 100 kB each when full. */
const MOST_RAILS = 32
const MOST_CURVATURES = 2_000

/** By all that a forming curvature follows from but the wanted one; the rail asked for last is the last. */
const rails = new Map<string, Map<number, number>>()

/**
 * `formingCurvature` of one rail, remembered from one plan to the next: a plan is asked for again and again while it is
 * changed, and most of its radii are those of before. The curvature is the same to the last bit, remembered or not.
 */
function formedCurvatures(section: SectionProperties, metal: Metal): FormingCurvature {
  const key = JSON.stringify([section, metal])
  const known = rails.get(key) ?? new Map<number, number>()
  rails.delete(key)
  rails.set(key, known)
  for (const oldest of rails.keys()) {
    if (rails.size <= MOST_RAILS) break
    rails.delete(oldest)
  }
  return (wantedPerMm) => {
    const remembered = known.get(wantedPerMm)
    if (remembered !== undefined) return remembered
    const formed = formingCurvature(section, metal, wantedPerMm)
    if (known.size >= MOST_CURVATURES) known.clear()
    known.set(wantedPerMm, formed)
    return formed
  }
}
