import type { Rule } from './checked-track.ts'
import { closure, closureMissed } from './closure.ts'
import { curvatureJump } from './curvature-jump.ts'
import { maximumGrade } from './maximum-grade.ts'
import { minimumRadius } from './minimum-radius.ts'
import { reverseCurve } from './reverse-curve.ts'

/** The rules every track is checked against, in the order in which their findings are listed. */
export const RULES: readonly Rule[] = [closure, minimumRadius, reverseCurve, maximumGrade, curvatureJump]

/** The same rules, where only what is wrong matters and not how to cure it. */
export const QUICK_RULES: readonly Rule[] = [closureMissed, minimumRadius, reverseCurve, maximumGrade, curvatureJump]
