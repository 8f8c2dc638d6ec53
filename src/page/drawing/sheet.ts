import type { Pose } from '../../track/types.ts'
import type { LengthsIn } from '../show-length.ts'
import type { OccupiedSpace } from './label-places.ts'
import type { Spot, View } from './view.ts'

/** What marks and labels on a drawing have in common. */
export interface Sheet {
  readonly view: View
  readonly occupied: OccupiedSpace
  readonly lengthsIn: LengthsIn
  readonly bandWidth: number
}

/** The direction along the track and the direction to its left, in drawing coordinates (y down). */
export function directions({ headingRad }: Pose): { along: Spot; left: Spot } {
  const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
  return { along: { x: cos, y: -sin }, left: { x: -sin, y: -cos } }
}

/** A name as a label, which must not be too long. */
export function shortened(name: string): string {
  const letters = [...name]
  return letters.length > 24 ? `${letters.slice(0, 23).join('')}…` : name
}
