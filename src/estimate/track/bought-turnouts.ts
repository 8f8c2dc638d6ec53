import type { WholePlan } from '../../plan/rows/plan.ts'
import type { TurnoutType } from '../../plan/rows/turnouts.ts'
import type { CoveredStretch } from '../ready-made/coverage.ts'
import type { LaidTrack } from './laid-track.ts'
import type { LaidTurnout } from './turnouts-of-plan.ts'

/** A kind of turnout that is bought or on hand; one that is neither is built by hand. */
export function isBought({ buyable, onHand }: Pick<TurnoutType, 'buyable' | 'onHand'>): boolean {
  return buyable || onHand > 0
}

/** The stretches of new tracks where turnouts lie that come with their rails and ties. */
export function boughtTurnouts(
  laid: readonly LaidTrack[],
  { turnoutTypes }: Pick<WholePlan, 'turnoutTypes'>,
): CoveredStretch[] {
  const bought = new Set(turnoutTypes.filter(isBought).map(({ id }) => id))
  return laid.flatMap(({ turnouts }, track) =>
    turnouts.filter(({ type }) => bought.has(type)).map((turnout) => stretchUnder(turnout, track, true)),
  )
}

/** The stretch of a track on which a turnout lies, with ties of its own or without. */
export function stretchUnder({ element, fromMm, toMm }: LaidTurnout, track: number, withTies: boolean): CoveredStretch {
  return { track, element, fromMm, toMm, radiusMm: null, leftOpenMm: 0, withTies, turnout: true, pieces: [] }
}

/** Where stretches begin and end, by track. */
export function endsOfStretches(stretches: readonly CoveredStretch[], tracks: number): number[][] {
  const ends = Array.from({ length: tracks }, (): number[] => [])
  for (const { track, fromMm, toMm } of stretches) ends[track]!.push(fromMm, toMm)
  return ends
}
