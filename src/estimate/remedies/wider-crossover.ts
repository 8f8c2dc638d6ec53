import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import type { Line } from './line.ts'
import { longerBy } from './longer.ts'
import { movedStart } from './moved-start.ts'

/**
 * The straight between two turnouts of different tracks made longer by moving the track of one of them away: along the
 * straight by what it grows.
 */
export function widerCrossover({ element, measured, limit }: Finding, line: Line, track: number): Patch[] {
  const at = line.tracks[track]!.turnouts.find((turnout) => turnout.element === element)
  if (!at) return []
  return line.tracks.flatMap(({ legs, placed, end, start }, index): Patch[] => {
    const ends = [legs.start, legs.end]
    if (!legs.start || !legs.end || !ends.some((leg) => leg?.turnout === at.name)) return []
    const straight = placed.find(({ kind }) => kind === 'tangent')
    const { step, addedMm } = longerBy(line, index, straight, limit! - measured!, placed.length)
    const { headingRad } = straight?.start ?? end ?? start
    // The track of the turnout it comes to goes ahead with it.
    const far = line.tracks.findIndex(({ turnouts }) => turnouts.some(({ name }) => name === legs.end!.turnout))
    const by = { xMm: addedMm * Math.cos(headingRad), yMm: addedMm * Math.sin(headingRad) }
    const moved = far < 0 ? null : movedStart(line, far, by)
    return moved === null ? [] : [[step, ...moved]]
  })
}
