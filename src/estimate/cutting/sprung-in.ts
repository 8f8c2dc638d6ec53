import { type BendingOfPlan, railRadii } from '../../bending/bends.ts'
import type { PlacedElement } from '../../track/types.ts'
import type { LaidTrack } from '../track/laid-track.ts'

/** Whether one rail of an element is sprung in rather than bent, wherever its joints are. */
export type SprungIn = (track: LaidTrack, side: 'left' | 'right', element: PlacedElement) => boolean

/**
 * An arc is sprung in if it would be with a joint in it, because the joints depend on what the bender leaves straight and
 * must not change it. An easement is sprung in with the arcs it lies between.
 */
export function sprungInBy({ former, gaugeMm, headWidthMm }: BendingOfPlan): SprungIn {
  const arcIs = (side: 'left' | 'right', { startCurvature, turnedRad }: PlacedElement): boolean => {
    const rail = startCurvature > 0 === (side === 'left') ? 'inner' : 'outer'
    const trackRadiusMm = 1 / Math.abs(startCurvature)
    const { radiusMm } = railRadii(trackRadiusMm, rail, gaugeMm, headWidthMm)
    const curve = { rail, radiusMm, trackRadiusMm, gaugeMm, turnedRad: Math.abs(turnedRad), jointsInBend: 1 } as const
    return former.form(curve).method === 'spring-in'
  }
  return ({ placed, closed }, side, element) => {
    if (element.kind === 'arc') return arcIs(side, element)
    const beside = [element.index - 1, element.index + 1]
      .map((index) => placed[closed ? (index + placed.length) % placed.length : index])
      .filter((each) => each?.kind === 'arc')
    return beside.length > 0 && beside.every((arc) => arcIs(side, arc!))
  }
}
