import { DEG_PER_RAD } from '../../measure/angle.ts'
import { exceeds } from '../../measure/counting.ts'

/** A peg of a curve to set out, measured along the centre line from the beginning of the curve. */
export interface ArcPeg {
  readonly atMm: number
  /** Along the tangent at the beginning and square off it; null once the curve has turned more than 90°. */
  readonly tangent: { readonly alongMm: number; readonly offsetMm: number } | null
  /** Along the long chord from the beginning and square off it; null when the whole curve turns more than 180°. */
  readonly longChord: { readonly alongMm: number; readonly offsetMm: number } | null
  /**
   * From the tangent at the beginning to the line of sight to the peg, in [0, 180): a full turn returns to where it
   * began.
   */
  readonly deflectionDeg: number
  /** Straight from the beginning, and from the peg before; 0 at the beginning. */
  readonly chordFromStartMm: number
  readonly chordFromPreviousMm: number
}

/**
 * Setting out a circular arc by tangent offsets, by offsets from the long chord, and by deflection angles and chords:
 *
 * x = R·sin φ, y = R(1 − cos φ), φ = s/R; deflection δ = s/(2R), chord 2R·sin(s/2R);
 * from the long chord: along (chord)·cos(Δ/2 − δ), offset (chord)·sin(Δ/2 − δ)
 *
 * R radius, s distance along the curve, Δ = L/R. Offsets lie towards the inside from the tangent and towards the
 * outside from the long chord. Beyond a full turn the line of sight is the one to the peg's place, so δ is reduced by
 * 180° and every chord is a length. Range: R > 0, 0 ≤ s ≤ L. Source: field books; Rankine's method,
 * tests/published/rankine-setting-out.test.ts; tests/bending/setting-out/arc.test.ts.
 *
 * @param stationsMm ascending, see `stationsAlong`
 */
export function arcPegs(radiusMm: number, lengthMm: number, stationsMm: readonly number[]): ArcPeg[] {
  const halfTurn = lengthMm / radiusMm / 2
  return stationsMm.map((atMm, index) => {
    const deflection = atMm / radiusMm / 2
    const chordFromStartMm = 2 * radiusMm * Math.sin(deflection)
    const fromPreviousMm = index === 0 ? 0 : atMm - stationsMm[index - 1]!
    const polar = (angle: number) => ({
      alongMm: chordFromStartMm * Math.cos(angle),
      offsetMm: chordFromStartMm * Math.sin(angle),
    })
    return {
      atMm,
      tangent: 2 * deflection <= Math.PI / 2 ? polar(deflection) : null,
      longChord: 2 * halfTurn <= Math.PI ? polar(halfTurn - deflection) : null,
      deflectionDeg: (deflection * DEG_PER_RAD) % 180,
      chordFromStartMm: Math.abs(chordFromStartMm),
      chordFromPreviousMm: Math.abs(2 * radiusMm * Math.sin(fromPreviousMm / radiusMm / 2)),
    }
  })
}

/**
 * Stations to peg: the beginning, then every interval, and the end. A first sub-chord (`firstMm`) brings the pegs onto
 * round stations of the track. A last interval of zero is left out.
 */
export function stationsAlong(lengthMm: number, intervalMm: number, firstMm: number = intervalMm): number[] {
  const stations = [0]
  // Multiplied, not added up: the hundredth peg is exactly a hundred intervals out.
  for (let n = 0; ; n++) {
    const atMm = firstMm + n * intervalMm
    if (!exceeds(lengthMm, atMm)) break
    if (atMm > 0) stations.push(atMm)
  }
  if (lengthMm > 0) stations.push(lengthMm)
  return stations
}
