import type { Patch } from '../../fitting/json-patch.ts'
import { valueAt } from '../../plan/reading/value-at.ts'
import type { Line } from './line.ts'

/** A track that starts at a place of its own moved sideways and ahead, all of it; null where another says where it starts. */
export function movedStart(
  { sent, tracks }: Line,
  track: number,
  by: { readonly xMm: number; readonly yMm: number },
): Patch | null {
  const given = valueAt(sent, ['tracks', track, 'start']) as Readonly<Record<string, unknown>> | undefined
  if (given?.from !== undefined || given?.after !== undefined) return null
  const { start } = tracks[track]!
  const x = asWritten(start.xMm + by.xMm)
  const y = asWritten(start.yMm + by.yMm)
  const path = `/tracks/${track}/start`
  if (given === undefined) return [{ op: 'add', path, value: { x, y } }]
  return [
    { op: 'add', path: `${path}/x`, value: x },
    { op: 'add', path: `${path}/y`, value: y },
  ]
}

/** In millimetres to a millionth, so that what it meets is still met. */
function asWritten(mm: number): number {
  return Number(mm.toFixed(6)) + 0
}
