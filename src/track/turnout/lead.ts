/** Where the curve of a turnout begins: at the heel of straight switch rails, or tangent to the track at the points. */
export interface Heel {
  /** Between the gauge lines of stock rail and switch rail at the heel. */
  readonly spreadMm: number
  readonly angleRad: number
  /** Length of the switch rail, measured along the track. */
  readonly pointLengthMm: number
}

export const NO_HEEL: Heel = { spreadMm: 0, angleRad: 0, pointLengthMm: 0 }

export interface LeadOf {
  readonly gaugeMm: number
  readonly frogRad: number
  /** A wye: both legs leave the track by half the angle of the frog. */
  readonly symmetrical: boolean
  readonly heel: Heel
  /** From the toe of the frog to its theoretical point; 0 where the curve runs through the frog. */
  readonly toeLengthMm: number
}

/** The curve between switch and frog. */
export interface Lead {
  readonly frogRad: number
  readonly heel: Heel
  readonly toeLengthMm: number
  /** Of the gauge line of the outer closure rail. */
  readonly outerGaugeRadiusMm: number
  /** Of the centre line of the track. */
  readonly closureRadiusMm: number
  /** Length of the outer closure rail along its gauge line. */
  readonly curvedClosureMm: number
  /** Length of the straight closure rail. */
  readonly straightClosureMm: number
  /** From the points to the theoretical point of the frog. */
  readonly leadMm: number
  /** Between the two gauge lines at the toe of the frog. */
  readonly toeSpreadMm: number
}

/** Why there is no such curve. */
export type LeadFault = 'heel-beyond-frog' | 'no-room' | 'too-tight'

export type LeadResult = { readonly ok: true; readonly lead: Lead } | { readonly ok: false; readonly why: LeadFault }

/**
 * The closure of a turnout with a straight frog, between straight or no switch rails and the toe of the frog.
 *
 * R = (o − h − k·sin φ)/(cos S − cos φ), centre line R − g/2
 * curved closure R·(φ − S), straight closure R·(sin φ − sin S) + k·cos φ − k, lead p + straight closure + k
 *
 * R radius of the outer gauge line, o the width the outer rail has to cross: the gauge g, of a wye g/2; φ its angle at the
 * frog: F, of a wye F/2; h heel spread, S heel angle, p length of the switch rail, k toe length of the frog. Without heel
 * and toe this is R = 2gN² (centre line) and lead 2gN with N = ½·cot(F/2). Toe spread 2k·sin(F/2).
 * Range: S < φ < 90°, h + k·sin φ < o.
 * Source: the split-switch formulas of the field books; US Army TI 850-02 (2000), eq. 6-12 to 6-14, in other letters. Checked in tests/published/field-book-turnouts.test.ts and tests/track/turnout/lead.test.ts.
 */
export function leadOf({ gaugeMm, frogRad, symmetrical, heel, toeLengthMm }: LeadOf): LeadResult {
  const openingMm = symmetrical ? gaugeMm / 2 : gaugeMm
  const phi = symmetrical ? frogRad / 2 : frogRad
  const { spreadMm, angleRad: s, pointLengthMm } = heel
  if (!(s < phi)) return { ok: false, why: 'heel-beyond-frog' }
  const crossedMm = openingMm - spreadMm - toeLengthMm * Math.sin(phi)
  if (!(crossedMm > 0)) return { ok: false, why: 'no-room' }
  const outerGaugeRadiusMm = crossedMm / cosineDifference(s, phi)
  if (!(outerGaugeRadiusMm > gaugeMm)) return { ok: false, why: 'too-tight' }
  const straightClosureMm =
    outerGaugeRadiusMm * (Math.sin(phi) - Math.sin(s)) + toeLengthMm * Math.cos(phi) - toeLengthMm
  return {
    ok: true,
    lead: {
      frogRad,
      heel,
      toeLengthMm,
      outerGaugeRadiusMm,
      closureRadiusMm: outerGaugeRadiusMm - gaugeMm / 2,
      curvedClosureMm: outerGaugeRadiusMm * (phi - s),
      straightClosureMm,
      leadMm: pointLengthMm + straightClosureMm + toeLengthMm,
      toeSpreadMm: 2 * toeLengthMm * Math.sin(frogRad / 2),
    },
  }
}

/** cos a − cos b as 2·sin((a + b)/2)·sin((b − a)/2), which loses no digits where both are small. */
function cosineDifference(a: number, b: number): number {
  return 2 * Math.sin((a + b) / 2) * Math.sin((b - a) / 2)
}

/**
 * The angle of the frog of a turnout whose curve runs through it, by the radius of its centre line.
 *
 * cos φ = cos S − (o − h)/R, R = radius + g/2, as in `leadOf` with k = 0. NaN where the curve never reaches the other rail.
 */
export function curvedFrogRad({
  gaugeMm,
  radiusMm,
  symmetrical,
  heel,
}: Pick<LeadOf, 'gaugeMm' | 'symmetrical' | 'heel'> & { readonly radiusMm: number }): number {
  const openingMm = (symmetrical ? gaugeMm / 2 : gaugeMm) - heel.spreadMm
  const share = openingMm / (radiusMm + gaugeMm / 2)
  // 1 − cos φ, from which the half angle comes without loss.
  const versine = 2 * Math.sin(heel.angleRad / 2) ** 2 + share
  const phi = 2 * Math.asin(Math.sqrt(versine / 2))
  return symmetrical ? 2 * phi : phi
}

/**
 * The toe length with which a straight frog and a closure of given radius go together; `leadOf` the other way round:
 * k = (o − h − R·(cos S − cos φ))/sin φ. Negative where the curve of that radius would pass the frog.
 */
export function toeLengthForRadiusMm({
  gaugeMm,
  frogRad,
  symmetrical,
  heel,
  radiusMm,
}: Omit<LeadOf, 'toeLengthMm'> & { readonly radiusMm: number }): number {
  const phi = symmetrical ? frogRad / 2 : frogRad
  const openingMm = (symmetrical ? gaugeMm / 2 : gaugeMm) - heel.spreadMm
  const crossedMm = (radiusMm + gaugeMm / 2) * cosineDifference(heel.angleRad, phi)
  return (openingMm - crossedMm) / Math.sin(phi)
}
