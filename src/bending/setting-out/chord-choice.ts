import { exceeds } from '../../measure/counting.ts'
import { arcOfChordMm, midOrdinateMm, ordinateAtMm, quarterOrdinateMm, radiusFromMidOrdinateMm } from '../ordinates.ts'

/** How a bend is measured: on which face, how finely, and how accurately. */
export interface Measuring {
  /** Radius of the face the chord touches. */
  readonly radiusMm: number
  /** Length of the bend; null where it is not limited. */
  readonly lengthMm: number | null
  /** How far a reading may be off, either way. */
  readonly resolutionMm: number
  readonly tolerancePct: number
}

/** One chord of the measuring sheet. Ordinates are null when the chord is longer than the diameter. */
interface ChordRow {
  readonly chordMm: number
  readonly midMm: number | null
  readonly quarterMm: number | null
  /** At one and at three eighths of the chord. */
  readonly eighthMm: number | null
  readonly threeEighthsMm: number | null
  /** What radius the middle ordinate may mean: read too large, read too small (null: it might be straight). */
  readonly lowRadiusMm: number | null
  readonly highRadiusMm: number | null
  /** The worse of the two in percent of the radius; null where it is not bounded. */
  readonly errorPct: number | null
  readonly fits: boolean
  readonly withinTolerance: boolean
}

export interface MeasuringSheet {
  readonly chords: readonly ChordRow[]
  /** The shortest chord that is long enough, exactly; null when none up to the diameter is. */
  readonly smallestChordMm: number | null
  /**
   * The shortest of the given chords that fits and is long enough; if none is, the exact one rounded up to whole
   * centimetres; null when that does not fit either.
   */
  readonly recommendedChordMm: number | null
}

/**
 * Ordinates of a bend for each chord, and which chord to measure it with. Checked in
 * tests/bending/setting-out/chord-choice.test.ts.
 */
export function measuringSheet(measuring: Measuring, chordsMm: readonly number[]): MeasuringSheet {
  const chords = chordsMm.map((chordMm) => chordRow(measuring, chordMm))
  const smallest = smallestChordMm(measuring)
  const good = chords.filter(({ fits, withinTolerance }) => fits && withinTolerance).map(({ chordMm }) => chordMm)
  const madeUp = smallest === null ? null : Math.ceil(smallest / 10) * 10
  const recommended = good.length > 0 ? Math.min(...good) : madeUp !== null && fits(measuring, madeUp) ? madeUp : null
  return { chords, smallestChordMm: smallest, recommendedChordMm: recommended }
}

/**
 * The shortest chord whose middle ordinate, read e too small, still gives the radius to within t:
 *
 * M = e·(2R(1 + t) + e) / (2(R·t + e)), C = 2·√(M(2R − M))
 *
 * R radius, t tolerance as a fraction, e reading error, mm. It is R(M − e) = R(1 + t) solved for M, R(M) being
 * C²/(8M) + M/2; reading too small is the worse side. Closed form, derived; null when M > R. Range: t > 0, e ≥ 0.
 */
export function smallestChordMm({ radiusMm: R, resolutionMm: e, tolerancePct }: Measuring): number | null {
  const t = tolerancePct / 100
  const M = (e * (2 * R * (1 + t) + e)) / (2 * (R * t + e))
  return M <= R ? 2 * Math.sqrt(M * (2 * R - M)) : null
}

function chordRow(measuring: Measuring, chordMm: number): ChordRow {
  const { radiusMm, resolutionMm, tolerancePct } = measuring
  const midMm = midOrdinateMm(radiusMm, chordMm)
  const errors = midMm === null ? null : readingErrors(radiusMm, chordMm, midMm, resolutionMm)
  return {
    chordMm,
    midMm,
    quarterMm: quarterOrdinateMm(radiusMm, chordMm),
    eighthMm: ordinateAtMm(radiusMm, chordMm, (3 / 8) * chordMm),
    threeEighthsMm: ordinateAtMm(radiusMm, chordMm, chordMm / 8),
    lowRadiusMm: errors?.lowRadiusMm ?? null,
    highRadiusMm: errors?.highRadiusMm ?? null,
    errorPct: errors?.errorPct ?? null,
    fits: fits(measuring, chordMm),
    withinTolerance: errors?.errorPct != null && errors.errorPct <= tolerancePct * (1 + 1e-9),
  }
}

function readingErrors(radiusMm: number, chordMm: number, midMm: number, resolutionMm: number) {
  const lowRadiusMm = radiusFromMidOrdinateMm(chordMm, midMm + resolutionMm)
  const highRadiusMm = midMm > resolutionMm ? radiusFromMidOrdinateMm(chordMm, midMm - resolutionMm) : null
  const errorPct =
    highRadiusMm === null || lowRadiusMm === null
      ? null
      : (100 * Math.max(highRadiusMm - radiusMm, radiusMm - lowRadiusMm)) / radiusMm
  return { lowRadiusMm, highRadiusMm, errorPct }
}

function fits({ radiusMm, lengthMm }: Measuring, chordMm: number): boolean {
  const arcMm = arcOfChordMm(radiusMm, chordMm)
  return arcMm !== null && (lengthMm === null || !exceeds(arcMm, lengthMm))
}
