import { longer } from '../measure/counting.ts'
import type { PlacedElement, Turn } from '../track/types.ts'
import type { BendForming, SheetOrdinates } from './forming/types.ts'
import { arcOfChordMm, midOrdinateMm, quarterOrdinateMm } from './ordinates.ts'

export type { SheetOrdinates as Ordinates } from './forming/types.ts'

/** One rail of one arc, to be bent and measured. */
export interface Bend {
  track: string
  element: number
  rail: 'outer' | 'inner'
  side: Turn
  turn: Turn
  /** Of the rail's own line, along the middle of its head. */
  radiusMm: number
  /** Of the concave side of the head, against which a chord is held. */
  measuredRadiusMm: number
  lengthMm: number
  ordinates: SheetOrdinates[]
  /** The shortest chord that tells the radius within tolerance and fits this bend; null when none does. */
  recommendedChordMm: number | null
  /** The shortest that would, exactly, whether it fits or not. */
  smallestChordMm: number | null
  forming: BendForming
}

/** A chord that does not fit a bend: the arc over it is longer than the bend, or it is longer than the diameter. */
export interface ChordLeftOut {
  readonly element: number
  readonly rail: 'outer' | 'inner'
  readonly chordMm: number
  readonly bendLengthMm: number
}

/**
 * Radii of the two rails of a curve, mm.
 *
 * outer R + (gauge + headWidth)/2, inner R − (gauge + headWidth)/2; a chord is held against the concave side of the
 * head, headWidth/2 nearer to the centre.
 *
 * @param trackRadiusMm R of the centre line, > (gauge + 2·headWidth)/2
 */
export function railRadii(
  trackRadiusMm: number,
  rail: 'outer' | 'inner',
  gaugeMm: number,
  headWidthMm: number,
): { radiusMm: number; measuredRadiusMm: number } {
  const radiusMm = trackRadiusMm + ((rail === 'outer' ? 1 : -1) * (gaugeMm + headWidthMm)) / 2
  return { radiusMm, measuredRadiusMm: radiusMm - headWidthMm / 2 }
}

/** Middle and quarter ordinates of one chord on a face of radius r; null when the chord is longer than 2r. */
export function ordinatesOf(measuredRadiusMm: number, chordMm: number): Ordinates | null {
  const midMm = midOrdinateMm(measuredRadiusMm, chordMm)
  const quarterMm = quarterOrdinateMm(measuredRadiusMm, chordMm)
  return midMm === null || quarterMm === null ? null : { chordMm, midMm, quarterMm }
}

/**
 * The two bends of an arc, outer rail first, with the ordinates of every chord that fits.
 *
 * @param railLengthMm laid length of the left and the right rail along this arc
 */
export function bendsOfArc(
  track: string,
  arc: PlacedElement,
  railLengthMm: { readonly left: number; readonly right: number },
  gaugeMm: number,
  headWidthMm: number,
  chordsMm: readonly number[],
): { bends: Bend[]; leftOut: ChordLeftOut[] } {
  const turn: Turn = arc.startCurvature > 0 ? 'left' : 'right'
  const outerSide: Turn = turn === 'left' ? 'right' : 'left'
  const leftOut: ChordLeftOut[] = []
  const bends = (['outer', 'inner'] as const).map((rail): Bend => {
    const side = rail === 'outer' ? outerSide : turn
    const lengthMm = railLengthMm[side]
    const { radiusMm, measuredRadiusMm } = railRadii(1 / Math.abs(arc.startCurvature), rail, gaugeMm, headWidthMm)
    const ordinates: Ordinates[] = []
    for (const chordMm of chordsMm) {
      const arcMm = arcOfChordMm(measuredRadiusMm, chordMm)
      const fitting = arcMm === null || longer(arcMm, lengthMm) ? null : ordinatesOf(measuredRadiusMm, chordMm)
      if (fitting) ordinates.push(fitting)
      else leftOut.push({ element: arc.index, rail, chordMm, bendLengthMm: lengthMm })
    }
    return { track, element: arc.index, rail, side, turn, radiusMm, measuredRadiusMm, lengthMm, ordinates }
  })
  return { bends, leftOut }
}
