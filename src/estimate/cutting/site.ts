import type { GrowingRail, LayingConditions } from '../../laying/gaps.ts'
import type { JoinedEnds } from '../../laying/joins.ts'
import type { Plan } from '../plan.ts'
import type { CoveredStretch } from '../ready-made/coverage.ts'
import { boughtTurnouts } from '../track/bought-turnouts.ts'
import { builtStretches } from '../track/built-rails.ts'
import { expansionThere, growingRails, layingConditions } from '../track/expansion.ts'
import { joinedEndsOfNew, type TrackToJoin } from '../track/joins.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { type BuiltTurnouts, NOTHING_BUILT } from './built-turnouts.ts'
import type { SprungIn } from './sprung-in.ts'

/** Placed new track, before its materials are chosen. */
export interface Site {
  readonly plan: Plan
  readonly joins: readonly TrackToJoin[]
  readonly laid: readonly LaidTrack[]
  readonly joined: readonly JoinedEnds[]
  /** Where turnouts lie, bought ones first. */
  readonly turnouts: readonly CoveredStretch[]
  readonly rails: readonly GrowingRail[]
  readonly weather: LayingConditions | null
  /** The name of the rail on the bill, and its weight. */
  readonly rail: { readonly name: string; readonly massPerMetreKg: number | null }
  /** What of the track is sprung in rather than bent. */
  readonly sprungIn: SprungIn
  readonly built: BuiltTurnouts
}

export function siteOf(
  plan: Plan,
  joins: readonly TrackToJoin[],
  rail: { readonly name: string; readonly massPerMetreKg: number | null },
  sprungIn: SprungIn,
  built: BuiltTurnouts = NOTHING_BUILT,
): Site {
  const laid = joins.map(({ track }) => track)
  const joined = joinedEndsOfNew(joins)
  const turnouts = [...boughtTurnouts(laid, plan), ...builtStretches(laid, plan)]
  const rails = growingRails(laid, joined, turnouts, (track, end) =>
    expansionThere(plan.tracks[joins[track]!.index]!, end, plan.metal),
  )
  return { plan, joins, laid, joined, turnouts, rails, weather: layingConditions(plan), rail, sprungIn, built }
}
