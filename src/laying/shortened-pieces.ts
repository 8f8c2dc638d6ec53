import { exceeds, LENGTH_SLACK_MM } from '../measure/counting.ts'
import { firstIndexWhere } from '../measure/search.ts'
import { sum } from '../measure/sum.ts'
import type { CutPlan, CutRules } from './cutting/cut-plan.ts'
import { byRail } from './gaps.ts'
import type { RailJoint } from './joints.ts'
import { cutMm, leftOverOf } from './sawing.ts'

/** A joint with its gap at laying, divided by the piece it is taken off. */
export interface OpenJoint extends Pick<RailJoint, 'track' | 'rail' | 'atMm'> {
  readonly offMm: { readonly before: number; readonly after: number }
}

/**
 * A cut plan whose pieces reach from joint to joint, with the gaps taken off them: off each piece its share; all of
 * the gap where other track is joined, because that is not cut. Then Σ pieces + Σ gaps = length of the rail, and what
 * the pieces lose is added to the offcuts. Places along the rail move with the pieces' starts.
 *
 * @param plan by rail
 * @param rails their lengths, and whether the rail closes on itself; rails of the plan beyond these have no gaps
 */
export function withGaps<P extends CutPlan>(
  plan: P,
  joints: readonly OpenJoint[],
  rails: readonly { readonly lengthMm: number; readonly closed: boolean }[],
  rules: CutRules,
): P {
  const ofRails = byRail(joints, rails.length)
  const losses = rails.map((rail, index) => lossesOf(rail, ofRails[index]!))
  const shortPieces: { run: number; lengthMm: number }[] = []
  const sticks = plan.sticks.map((stick) => {
    const pieces = stick.pieces.map((piece) => {
      const startMm = lossAt(losses[piece.run] ?? [], piece.fromMm)?.startMm ?? 0
      const endMm = lossAt(losses[piece.run] ?? [], piece.fromMm + piece.lengthMm)?.endMm ?? 0
      const lengthMm = Math.max(0, piece.lengthMm - startMm - endMm)
      if (exceeds(rules.minimumPiece, lengthMm)) shortPieces.push({ run: piece.run, lengthMm })
      return { ...piece, fromMm: piece.fromMm + startMm, lengthMm }
    })
    return { ...stick, pieces, ...leftOver(stick, pieces, rules.kerf) }
  })
  return {
    ...plan,
    sticks,
    shortPieces: shortPieces.sort((a, b) => a.run - b.run),
    ...leftOverOf(sticks, rules.minimumPiece),
  }
}

/** A cut between pieces takes the kerf; the last takes no more than is left. */
function leftOver(
  { lengthMm, trimMm }: { readonly lengthMm: number; readonly trimMm: number },
  pieces: readonly { readonly lengthMm: number }[],
  kerfMm: number,
) {
  const betweenMm = kerfMm * (pieces.length - 1)
  const restMm = Math.max(0, lengthMm - trimMm - sum(pieces.map((piece) => piece.lengthMm)) - betweenMm)
  const lastMm = cutMm(restMm, kerfMm)
  return { kerfMm: betweenMm + lastMm, offcutMm: restMm - lastMm }
}

interface Loss {
  readonly atMm: number
  /** For a piece that ends here, and for one that begins here. */
  readonly endMm: number
  readonly startMm: number
}

function lossesOf(rail: { lengthMm: number; closed: boolean }, joints: readonly OpenJoint[]): Loss[] {
  const losses = joints.map(({ atMm, offMm: { before, after } }) => {
    const atEnd = !rail.closed && !(exceeds(atMm, 0) && exceeds(rail.lengthMm, atMm))
    return { atMm, endMm: atEnd ? before + after : before, startMm: atEnd ? before + after : after }
  })
  const closing = rail.closed && losses.find(({ atMm }) => !exceeds(atMm, 0))
  if (closing) losses.push({ ...closing, atMm: rail.lengthMm })
  return losses.sort((a, b) => a.atMm - b.atMm)
}

function lossAt(losses: readonly Loss[], atMm: number): Loss | null {
  const next = losses[firstIndexWhere(losses.length, (index) => losses[index]!.atMm >= atMm - LENGTH_SLACK_MM)]
  return next && !exceeds(next.atMm, atMm) ? next : null
}
