import type { Standards } from '../plan/rows/standards.ts'
import type { GradeLimit } from '../plan/rows/track.ts'
import type { CoupledCar } from '../room/coupled-cars.ts'
import type { HeldEnd } from '../track/closure.ts'
import type { GradeStretch } from '../track/grade.ts'
import type { PlacedElement } from '../track/types.ts'
import type { Finding } from './finding.ts'

/** A placed track, as the rules see it. */
export interface CheckedTrack {
  readonly name: string
  readonly closed: boolean
  readonly lengthMm: number
  readonly gaugeMm: number
  /** Where its end must be: a closed track's at its start. Null: anywhere. */
  readonly heldAt: HeldEnd | null
  readonly placed: readonly PlacedElement[]
  readonly endElevationMm: number
  readonly grades: readonly GradeStretch[]
  /** The turnouts it passes through; none when left out. */
  readonly turnouts?: readonly CheckedTurnout[] | undefined
  /** The cars that run on it; none when left out. */
  readonly cars?: readonly CoupledCar[] | undefined
  readonly gradeLimits: readonly GradeLimit[]
}

interface CheckedTurnout {
  readonly name: string
  /** Index of its element. */
  readonly element: number
  readonly closureRadiusMm: number
}

/** A rule of good track: what it finds on one track, compared with the standards of the plan. */
export type Rule = (track: CheckedTrack, standards: Standards) => Finding[]
