import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { networkOf } from '../../network/network.ts'
import { leadsOf } from '../../network/sidings.ts'
import { valueAt } from '../../plan/reading/value-at.ts'
import type { Line } from './line.ts'
import { longerBy } from './longer.ts'
import { movedStart } from './moved-start.ts'

/** A lead before the points of a turnout made longer where it ends. */
export function longerLead({ element, measured, limit }: Finding, line: Line, track: number): Patch[] {
  const lead = leadsOf(networkOf(line.tracks, line.plan.standards)).find(
    (each) => each.track === track && each.turnout.element === element,
  )
  if (!lead) return []
  const { track: at, end } = lead.endsAt
  const { placed, start, state } = line.tracks[at]!
  if (state !== 'new') return []
  const outer = end === 'start' ? placed[0] : placed.at(-1)
  const { step, addedMm } = longerBy(line, at, outer, limit! - measured!, end === 'start' ? 0 : placed.length)
  if (end === 'end') return [[step]]
  // Nothing else is to move, nor what lies at a station of the track.
  if (STATIONS.some((field) => valueAt(line.sent, ['tracks', at, field]) !== undefined)) return []
  const back = movedStart(line, at, {
    xMm: -addedMm * Math.cos(start.headingRad),
    yMm: -addedMm * Math.sin(start.headingRad),
  })
  return back === null ? [] : [[step, ...back]]
}

/** What a track says of its stations, which are counted from its start. */
const STATIONS = ['gradeLine', 'breaks', 'keepOut', 'limits', 'levelsAt', 'ground', 'interlaced'] as const
