import type { Estimate } from '../estimate/answer.ts'
import type { PlanInput } from '../plan/rows/plan.ts'

/** A plan as it was read, and its estimate. */
export interface PlanOnPaper {
  readonly plan: PlanInput
  readonly estimate: Estimate
}

/** The drawings that a plan is given as, by the names of their files. */
export const DRAWINGS = ['plan.svg', 'profile.svg', 'plan.dxf'] as const

export type DrawingFile = (typeof DRAWINGS)[number]

/** What makes files for people of plans. The interface only asks for them: how they look is the business of the page. */
export interface Papers {
  drawing(file: DrawingFile, of: PlanOnPaper): string
}
