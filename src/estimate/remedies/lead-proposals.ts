import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { mmOf } from '../../fitting/patches.ts'
import { lengthLike } from '../../measure/as-written.ts'
import { networkOf } from '../../network/network.ts'
import { leadsOf } from '../../network/sidings.ts'
import { valueAt } from '../../plan/reading/value-at.ts'
import { type Line, sentElements, unitOf } from './line.ts'
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
  const sent = sentElements(line, at)
  const outer = end === 'start' ? placed[0]! : placed.at(-1)!
  const byMm = limit! - measured!
  const elements = `/tracks/${at}/elements`
  const isStraight = outer.kind === 'tangent'
  const given = sent[outer.index]!.length
  const value = isStraight ? lengthLike(given, outer.lengthMm + byMm, 0, 'up') : lengthLike(unitOf(sent), byMm, 0, 'up')
  const longer: Patch[number] = isStraight
    ? { op: 'replace', path: `${elements}/${outer.index}/length`, value }
    : { op: 'add', path: `${elements}/${end === 'start' ? 0 : sent.length}`, value: { kind: 'tangent', length: value } }
  if (end === 'end') return [[longer]]
  // Nothing else is to move, nor what lies at a station of the track.
  if (STATIONS.some((field) => valueAt(line.sent, ['tracks', at, field]) !== undefined)) return []
  const addedMm = mmOf(value) - (isStraight ? outer.lengthMm : 0)
  const back = movedStart(line, at, {
    xMm: -addedMm * Math.cos(start.headingRad),
    yMm: -addedMm * Math.sin(start.headingRad),
  })
  return back === null ? [] : [[longer, ...back]]
}

/** What a track says of its stations, which are counted from its start. */
const STATIONS = ['gradeLine', 'breaks', 'keepOut', 'limits', 'levelsAt', 'ground', 'interlaced'] as const
