/**
 * How one rail is bent in a roller bender. Its state after any number of passes is the largest curvature it had under
 * load, its *peak*, per mm: rail unloads elastically, is elastic again up to that peak and then follows the
 * moment–curvature law further. Pressed rail has its peaks at the places where it was pressed.
 */
export interface BendingModel {
  /** The peak that leaves a curvature > 0; of pressed rail, a mean curvature. */
  peakFor(wantedPerMm: number): number
  /** The curvature that a peak leaves. */
  leavesPerMm(peak: number): number
  /** Depth from just touching the straight rail at which rail with the peak `before` (0: straight) gets a greater one. */
  depthMm(before: number, peak: number): number
}
