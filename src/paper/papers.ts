import type { Estimate } from '../estimate/answer.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { Origin } from './origin.ts'
import type { Paper } from './pdf/blocks.ts'

/** A plan as it was read, and its estimate. */
export interface PlanOnPaper {
  readonly plan: PlanInput
  readonly estimate: Estimate
}

/** The drawings that a plan is given as, by the names of their files. */
export const DRAWINGS = ['plan.svg', 'profile.svg', 'plan.dxf', 'plan.geojson'] as const

export type DrawingFile = (typeof DRAWINGS)[number]

/** The sheets that are printed, in the order of the work. */
export const PRINTED_SHEETS = ['line', 'shop', 'saw', 'bench', 'garden'] as const

export type PrintedSheet = (typeof PRINTED_SHEETS)[number]

/** The sizes of paper. */
export const PAPERS = ['a4', 'letter'] as const

export interface AskedSheets {
  /** In the order of the work. */
  readonly sheets: readonly PrintedSheet[]
  readonly paper: Paper
  /** Of the drawing, as 50 for 1:50; a standard one that suits the plan if omitted. */
  readonly scale?: number | undefined
}

/** What is printed in true size. */
export const TEMPLATES = ['curve', 'chord', 'turnout', 'envelope'] as const

/** Which template; what is omitted is the first there is in the plan. */
export interface AskedTemplate {
  readonly template: (typeof TEMPLATES)[number]
  readonly paper: Paper
  /** The name of a track, and the number of one of its elements, from 0. */
  readonly track?: string | undefined
  readonly element?: number | undefined
  /** The rail that a chord gauge is for; the outer one if omitted. */
  readonly rail?: 'outer' | 'inner' | undefined
  /** Its chord, mm; the one that the bench sheet recommends if omitted. */
  readonly chord?: number | undefined
  /** The name of a turnout. */
  readonly turnout?: string | undefined
  /** The name of the car whose envelope it is; the longest if omitted. */
  readonly car?: string | undefined
}

/** Why something cannot be printed as it is asked for. */
export interface PaperFault {
  readonly parameter: 'for' | 'scale' | Exclude<keyof AskedTemplate, 'paper'>
  readonly code: 'out-of-range' | 'unknown-value'
  readonly detail: string
  readonly hint: string
}

export type PdfFile =
  | { readonly ok: true; readonly pdf: Uint8Array<ArrayBuffer> }
  | { readonly ok: false; readonly fault: PaperFault }

/** What makes files for people of plans. The interface only asks for them: how they look is the business of the page. */
export interface Papers {
  drawing(file: DrawingFile, of: PlanOnPaper): Promise<string>
  sheets(of: PlanOnPaper, asked: AskedSheets, origin: Origin): Promise<PdfFile>
  template(of: PlanOnPaper, asked: AskedTemplate, origin: Origin): Promise<PdfFile>
}
