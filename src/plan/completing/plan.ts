import { type Assume, type Assumption, completing, SILENT } from '../fields/complete.ts'
import { PLAN, type PlanInput, type WholePlan } from '../rows/plan.ts'
import { completeEarthworks, completePower, completeRoadbed } from './ballast-and-power.ts'
import { completeBender } from './bender.ts'
import { assumeExpansion, completeJoints } from './joints.ts'
import { assumeReadings, completeRail } from './rail.ts'
import { completeStandards } from './standards.ts'
import { completeSupplies } from './supplies.ts'
import { completeTrack } from './track.ts'

/**
 * Fills in everything a plan leaves open and lists what it assumed. A field that is not named here is completed by its
 * row.
 *
 * @param input a plan without faults; an unknown section, material or temper throws
 * @returns the complete plan, and one assumption for each default that was used
 */
export function completePlan(input: PlanInput): { plan: WholePlan; assumptions: Assumption[] } {
  const assumptions: Assumption[] = []
  const assume: Assume = (field, value, reason) => assumptions.push({ field, value, reason })
  // The bender has no effect in a plan without a curve, and the reading of chords none without a bend.
  const anythingBent = input.tracks.some(({ elements }) => elements.some(({ kind }) => kind !== 'tangent'))
  const anythingRead = anythingBent || (input.rail.calibration ?? []).length > 0

  const { field, whole } = completing(PLAN, input, '', assume)
  field('gauge')
  const rail = field('rail', () => completeRail(input.rail, assume))
  field('bender', (bender) => completeBender(bender, anythingBent ? assume : SILENT))
  const tracks = input.tracks.map((track, index) => completeTrack(track, index, assume))
  field('tracks', () => tracks)
  field('supplies', (supplies) => completeSupplies(supplies ?? {}, rail, tracks, assume))
  field('standards', (standards) => completeStandards(standards ?? {}, assume, input.cars))
  field('chords')
  assumeReadings(input.rail, assume)
  field('resolution', anythingRead ? undefined : 'silent')
  const climate = field('climate')
  field('joints', (joints) => completeJoints(joints ?? {}, climate, tracks, assume))
  assumeExpansion(input.rail, climate, assume)
  field('effort')
  field('roadbed', (roadbed) => completeRoadbed(roadbed, assume))
  const hasGround = (input.ground ?? []).length > 0 || tracks.some(({ ground }) => ground.length > 0)
  field('earthworks', (earthworks) => (hasGround ? completeEarthworks(earthworks ?? {}, assume) : null))
  field('power', (power) => completePower(power, input.rail, assume))
  return { plan: whole() as WholePlan, assumptions }
}
