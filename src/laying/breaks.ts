/**
 * What divides both rails of a track at a station, whatever the sticks are like:
 * - `turnout`: the rails end at a turnout, which brings its own joiners;
 * - `insulated`: an insulated joiner on each rail;
 * - `bridge-end`: an ordinary joint that must fall there;
 * - `expansion-joint`: a made-up joint that takes more movement than a joiner can.
 */
export const BREAK_KINDS = ['turnout', 'insulated', 'bridge-end', 'expansion-joint'] as const
export type BreakKind = (typeof BREAK_KINDS)[number]

export interface Break {
  /** Station on the centre line. */
  readonly at: number
  readonly kind: BreakKind
}
