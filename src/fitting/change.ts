import type { Turn } from '../plan/rows/track.ts'

/** A change of one figure of an element, or of its turn. */
export type Change =
  /** Of a straight or an easement. */
  | { readonly element: number; readonly field: 'length'; readonly fromMm: number; readonly toMm: number }
  /** The arc's own angle, above zero whichever way it turns. */
  | { readonly element: number; readonly field: 'angle'; readonly fromRad: number; readonly toRad: number }
  | { readonly element: number; readonly field: 'radius'; readonly fromMm: number; readonly toMm: number }
  | { readonly element: number; readonly field: 'turn'; readonly to: Turn }
