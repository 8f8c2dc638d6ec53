import type { ChordLeftOut } from '../../bending/bends.ts'
import { bendingFindings } from '../../checking/bending.ts'
import { bySeverity } from '../../checking/by-severity.ts'
import { chordTooLong } from '../../checking/chord-too-long.ts'
import { breakAtFreeEnd, expansionFindings } from '../../checking/expansion.ts'
import { jointPlaceFindings } from '../../checking/joint-places.ts'
import { pieceTooShort } from '../../checking/piece-too-short.ts'
import { breaksAtFreeEnds, SIDES } from '../../laying/joints.ts'
import type { ExpansionAnswer, Finding, JointAnswer } from '../answer.ts'
import type { Bending, BendsOfPlan } from '../bending.ts'
import type { LaidOut } from '../cutting/lay-out.ts'
import { looseJoints } from '../ready-made/coverage.ts'
import type { Billed } from './bill-all.ts'
import { checkLine } from './check-line.ts'
import type { Laid } from './lay-tracks.ts'

/** What came of the stages before, as far as it is checked. */
export interface Made {
  readonly laid: Laid
  readonly laidOut: LaidOut
  readonly bending: Bending & { readonly ok: true }
  readonly bent: BendsOfPlan
  readonly expansion: ExpansionAnswer | null
  readonly joints: readonly JointAnswer[]
  readonly billed: Billed
}

/** Everything that is wrong with a plan or worth knowing before it is built, the worst first. */
export function check({ laid, laidOut, bending, bent, expansion, joints, billed }: Made): Finding[] {
  const { plan, drawn, site } = laid
  return bySeverity([
    ...checkLine(drawn, plan, site.joins),
    ...atPieces(laid, laidOut, bent.leftOut),
    ...bendingFindings(
      bent.bends.filter(({ readyMade }) => !readyMade),
      bending.calibration,
      bending.ofMetal,
    ),
    ...expansionFindings(
      expansion,
      joints,
      plan.joints.insulatorThickness,
      site.laid.filter(({ placed }) => placed.some(({ kind }) => kind === 'tangent')).map(({ name }) => name),
    ),
    ...atJoints(laid, laidOut),
    ...billed.powerFindings,
  ])
}

/** Bends too short for a chord, and pieces too short to stay in line. */
function atPieces({ site: { laid }, plan }: Laid, { cuts }: LaidOut, leftOut: readonly ChordLeftOut[][]): Finding[] {
  return laid.flatMap((track, index) => [
    ...chordTooLong(track.name, leftOut[index] ?? []),
    ...cuts.shortPieces
      .filter(({ run }) => run >> 1 === index)
      .map(({ run, lengthMm }) => pieceTooShort(track.name, SIDES[run % 2]!, lengthMm, plan.supplies.minimumPiece)),
  ])
}

/** Joints that lie where the plan wants none, then breaks that break nothing. */
function atJoints({ site: { laid, joined } }: Laid, { ofTrack, covered, divided }: LaidOut): Finding[] {
  const misplaced = laid.flatMap((track, index) =>
    jointPlaceFindings(track.name, looseJoints(ofTrack[index]!, covered, index), divided.asked[index]!),
  )
  const atFreeEnds = laid.flatMap((track, index) =>
    breaksAtFreeEnds(track, joined[index]!).map(({ at: atMm, kind }) =>
      breakAtFreeEnd(track.name, atMm, kind.replace('-', ' ')),
    ),
  )
  return [...misplaced, ...atFreeEnds]
}
