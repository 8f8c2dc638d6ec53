/** One rail of an assembled track that was bent with both rails at one setting. */
export interface RailAtOneSetting {
  readonly wantedRadiusMm: number
  /** Actual minus wanted: negative where the rail comes out too tight. */
  readonly missMm: number
  readonly missPct: number
}

/**
 * Bending both rails of an assembled track together gives both the radius set for the centre line, R, while they need
 * R ± b/2 (b between the rails' own lines, gauge + head width): the outer rail comes out too tight by b/2, the inner
 * too large by as much. Closed form; tests/bending/assembled-track.test.ts. Range: R > b/2.
 */
export function oneSettingErrors(
  trackRadiusMm: number,
  gaugeMm: number,
  headWidthMm: number,
): { readonly outer: RailAtOneSetting; readonly inner: RailAtOneSetting } {
  const half = (gaugeMm + headWidthMm) / 2
  const railAt = (wantedRadiusMm: number): RailAtOneSetting => ({
    wantedRadiusMm,
    missMm: trackRadiusMm - wantedRadiusMm,
    missPct: (100 * (trackRadiusMm - wantedRadiusMm)) / wantedRadiusMm,
  })
  return { outer: railAt(trackRadiusMm + half), inner: railAt(trackRadiusMm - half) }
}

export interface InnerRailCreep {
  /** How far the inner rail projects beyond the outer one, to be cut off and counted as waste. */
  readonly creepMm: number
  readonly fixedEnd: 'start' | 'end'
  readonly trimAt: 'start' | 'end'
}

/**
 * Two rails of equal length that are bent together turn the same angle on different radii, so with one end held the
 * inner one creeps past the outer by b·Δ = (gauge + headWidth)·Δ, whatever the radius. The ties' webs must be cut to
 * let it slide. Exact; tests/bending/assembled-track.test.ts.
 *
 * @param turnedRad angle of the curve; its sign does not matter
 */
export function innerRailCreep(
  gaugeMm: number,
  headWidthMm: number,
  turnedRad: number,
  fixedEnd: 'start' | 'end' = 'start',
): InnerRailCreep {
  return {
    creepMm: (gaugeMm + headWidthMm) * Math.abs(turnedRad),
    fixedEnd,
    trimAt: fixedEnd === 'start' ? 'end' : 'start',
  }
}
