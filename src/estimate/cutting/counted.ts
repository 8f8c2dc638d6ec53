import type { Need } from '../../laying/bill.ts'
import type { JoinedEnds } from '../../laying/joins.ts'
import { tiesToAddAtJoints } from '../../laying/joint-ties.ts'
import { type RailJoint, TAKES_JOINER } from '../../laying/joints.ts'
import { tiesUnder } from '../../laying/ties.ts'
import { sum } from '../../measure/sum.ts'
import { liveFrogs } from '../bill/frogs.ts'
import { panelNeeds, partNeeds, type TrackNeeds } from '../bill/needs.ts'
import { frogSwitchNeeds, longTieNeeds, longTiesOn, throwNeeds, turnoutNeeds } from '../bill/turnouts.ts'
import type { Plan } from '../plan.ts'
import { type Coverage, jointsToTie, tiesCovered } from '../ready-made/coverage.ts'
import { transitionJoints } from '../track/joins.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { joinersInBuilt } from './built-turnouts.ts'
import type { Site } from './site.ts'

/** The needs of new track by track, its joints by track, and the lines of the bill but for rail. */
export interface Counted {
  readonly ofTrack: readonly RailJoint[][]
  readonly needs: readonly TrackNeeds[]
  readonly lines: readonly Need[]
}

/** Counts what new track takes besides rail, once its joints are known. */
export class Counting {
  private readonly site: Site
  private readonly covered: Coverage
  private readonly joinersIncluded: number

  constructor(site: Site, covered: Coverage) {
    this.site = site
    this.covered = covered
    const { panels } = site.plan.supplies
    this.joinersIncluded = sum(covered.used.map(({ panel }) => panels[panel]!.joiners))
  }

  /** @param piecesOfBuilt pieces of each rail of turnouts that are built by hand */
  of(joints: readonly RailJoint[], piecesOfBuilt: readonly number[]): Counted {
    const { plan, laid, joined, built } = this.site
    const ofTrack = byTrack(joints, laid.length)
    const frogs = liveFrogs(laid, plan, ofTrack)
    const transitions = this.transitionsIn(joints)
    const needs = laid.map((track, index): TrackNeeds => {
      const taken = trackNeeds(track, index, joined[index]!, ofTrack[index]!, this.covered, plan)
      return {
        ...taken,
        transitions: transitions[index]!,
        longTies: longTiesOn(track, plan),
        joinersInTurnouts: joinersInBuilt(built, index, piecesOfBuilt),
        liveFrogs: frogs[index]!,
      }
    })
    const lines = [
      ...panelNeeds(this.covered, plan.supplies.panels, laid),
      ...turnoutNeeds(laid, plan),
      ...partNeeds(needs, plan, this.joinersIncluded),
      ...longTieNeeds(laid, plan),
      ...throwNeeds(laid, plan),
      ...frogSwitchNeeds(needs, plan),
    ]
    return { ofTrack, needs, lines }
  }

  /** Joiners of the plain kind at these joints, those that come with ready-made pieces taken off. */
  plainJoiners(joints: readonly RailJoint[]): number {
    const { plan, laid, built } = this.site
    const taken = joints.filter(({ kind }) => TAKES_JOINER.has(kind)).length + built.joiners
    const atFrogs = sum(
      liveFrogs(laid, plan, byTrack(joints, laid.length)).map(({ joinersReplaced }) => joinersReplaced),
    )
    return taken - atFrogs - sum(this.transitionsIn(joints)) - this.joinersIncluded
  }

  private transitionsIn(joints: readonly RailJoint[]): number[] {
    const { joins, plan } = this.site
    return joins.map((join, place) => {
      const ofTrack = joints.filter(({ track }) => track === place)
      return transitionJoints(ofTrack, join, plan)
    })
  }
}

function byTrack(joints: readonly RailJoint[], tracks: number): RailJoint[][] {
  return Array.from({ length: tracks }, (_, index) => joints.filter(({ track }) => track === index))
}

/** The ties and joiners of a track. */
function trackNeeds(
  { name, lengthMm, closed }: LaidTrack,
  index: number,
  joined: JoinedEnds,
  joints: readonly RailJoint[],
  covered: Coverage,
  { supplies }: Plan,
): Omit<TrackNeeds, 'transitions' | 'longTies' | 'joinersInTurnouts' | 'liveFrogs'> {
  const sharedEnds = joined.existing.length + joined.ofPlan.length
  const row = tiesUnder(lengthMm, supplies.ties.spacing, closed, sharedEnds)
  const shares = (end: 'start' | 'end') =>
    joined.existing.includes(end) || joined.ofPlan.some((join) => join.end === end)
  const inRow = {
    ...{ lengthMm, spacingMm: row.tieSpacingMm, closed },
    ...{ sharedStart: shares('start'), sharedEnd: shares('end') },
  }
  const tiesOf = (turnouts: boolean) => {
    const stretches = covered.stretches.filter(({ turnout = false }) => turnout === turnouts)
    return tiesCovered({ ...covered, stretches }, index, inRow)
  }
  const [tiesIncluded, tiesOfTurnouts] = [tiesOf(false), tiesOf(true)]
  const stations = jointsToTie(joints, covered, index).map(({ stationMm }) => stationMm)
  const jointTies = supplies.ties.jointTies
    ? tiesToAddAtJoints({ lengthMm, spacingMm: row.tieSpacingMm, closed }, stations)
    : 0
  return { name, lengthMm, closed, joined, joints, ...row, jointTies, tiesIncluded, tiesOfTurnouts }
}
