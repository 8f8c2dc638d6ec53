/** The cross-section of a bed of ballast, across the track. */
export interface Bed {
  readonly kind: 'raised' | 'trench'
  /** At the top of the ballast. */
  readonly crownWidth: number
  /** From the bottom of the ties to the bottom of the ballast. */
  readonly depthUnderTie: number
  /** Run over rise of each side: 1.25 means 1:1.25. A raised bed widens downwards, a trench narrows. */
  readonly shoulderSlope: number
  /** How far up the ballast goes: with the ties bedded in it, or only up to their bottoms. */
  readonly filledTo: 'tie-top' | 'tie-bottom'
  /** Null only where no tie is bedded. */
  readonly tie: { readonly length: number; readonly width: number; readonly height: number } | null
}

export interface BedSection {
  readonly heightMm: number
  readonly baseWidthMm: number
  readonly areaMm2: number
}

/**
 * The trapezoid h = d + (ties bedded: their height), base = crown ± 2·m·h, A = h·(crown + base)/2; d the depth under
 * the tie, m the slope, + for a raised bed, − for a trench. For a trench whose sides would cross, base and area follow
 * the formula without meaning (`roadbedFaults` refuses it). Checked in tests/laying/roadbed.test.ts and
 * tests/published/nem-122-roadbed.test.ts.
 */
export function bedSection({
  kind,
  crownWidth: crownWidthMm,
  depthUnderTie: depthUnderTieMm,
  shoulderSlope: slope,
  filledTo,
  tie,
}: Bed): BedSection {
  const heightMm = depthUnderTieMm + (filledTo === 'tie-top' ? (tie?.height ?? 0) : 0)
  const sidesMm = 2 * slope * heightMm
  const baseWidthMm = kind === 'raised' ? crownWidthMm + sidesMm : crownWidthMm - sidesMm
  return { heightMm, baseWidthMm, areaMm2: (heightMm * (crownWidthMm + baseWidthMm)) / 2 }
}

const LITRES_PER_MM3 = 1e-6

/**
 * Ballast in place under one track, litres: V = A·L − n·(length · width · height of a tie), the ties only where they
 * are bedded; L the centre line's horizontal length. Exact on curves, as the section is symmetrical (Pappus), and on
 * grades, as the section is vertical; the slopes at open ends are ignored.
 */
export function ballastInPlace(bed: Bed, lengthMm: number, ties: number): { volumeL: number; tiesL: number } {
  const { length: long, width: widthMm, height: heightMm } = bed.tie ?? { length: 0, width: 0, height: 0 }
  const tiesL = bed.filledTo === 'tie-top' ? ties * long * widthMm * heightMm * LITRES_PER_MM3 : 0
  return { volumeL: Math.max(0, bedSection(bed).areaMm2 * lengthMm * LITRES_PER_MM3 - tiesL), tiesL }
}

/** Loose ballast that settles to a volume: V / (1 − s), s the share of itself that it shrinks by. */
export function looseVolume(inPlaceL: number, shrinkagePct: number): number {
  return inPlaceL / (1 - shrinkagePct / 100)
}
