/** What a worker thread can be asked for, by name. Every argument and every result is plain data. */
export { checkBend } from '../bending/bend-check/check.ts'
export { estimate } from '../estimate/estimate.ts'
export { planCutList } from '../laying/cut-list.ts'
