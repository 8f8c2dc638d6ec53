import { LENGTH_SLACK_MM, longer } from '../measure/counting.ts'
import { firstIndexWhere } from '../measure/search.ts'
import { sum } from '../measure/sum.ts'
import type { CutPlan, CutRules } from './cut-plan.ts'
import { byRail } from './gaps.ts'
import type { RailJoint } from './joints.ts'
import { cutMm, leftOverOf } from './sawing.ts'

/** A joint with the gap left open in it when the rail is laid. */
export interface OpenJoint extends Pick<RailJoint, 'track' | 'rail' | 'atMm' | 'kind'> {
  readonly gapMm: number
}

/**
 * A cut plan whose pieces reach from joint to joint, with the gaps taken off them: half of each gap off either piece; all
 * of it where other track is joined, which is not cut for it. Then Σ pieces + Σ gaps = length of the rail, and what the
 * pieces lose goes to the offcuts. Places along the rail move with the pieces' starts.
 *
 * @param plan told by rail
 * @param rails their lengths, and whether the rail closes on itself
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
      const startMm = lossAt(losses[piece.run]!, piece.fromMm)
      const endMm = lossAt(losses[piece.run]!, piece.fromMm + piece.lengthMm)
      const lengthMm = Math.max(0, piece.lengthMm - startMm - endMm)
      if (longer(rules.minimumPieceMm, lengthMm)) shortPieces.push({ run: piece.run, lengthMm })
      return { ...piece, fromMm: piece.fromMm + startMm, lengthMm }
    })
    return { ...stick, pieces, ...leftOver(stick, pieces, rules.kerfMm) }
  })
  return {
    ...plan,
    sticks,
    shortPieces: shortPieces.sort((a, b) => a.run - b.run),
    ...leftOverOf(sticks, rules.minimumPieceMm),
  }
}

/** A cut between pieces takes the kerf; the last takes no more than is left, and nothing where nothing is. */
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
  /** Of a piece that begins or ends here. */
  readonly mm: number
}

function lossesOf(rail: { lengthMm: number; closed: boolean }, joints: readonly OpenJoint[]): Loss[] {
  const losses = joints.map(({ atMm, gapMm }) => {
    const atEnd = !rail.closed && !(longer(atMm, 0) && longer(rail.lengthMm, atMm))
    return { atMm, mm: atEnd ? gapMm : gapMm / 2 }
  })
  const closing = rail.closed && losses.find(({ atMm }) => !longer(atMm, 0))
  if (closing) losses.push({ ...closing, atMm: rail.lengthMm })
  return losses.sort((a, b) => a.atMm - b.atMm)
}

function lossAt(losses: readonly Loss[], atMm: number): number {
  const next = losses[firstIndexWhere(losses.length, (index) => losses[index]!.atMm >= atMm - LENGTH_SLACK_MM)]
  return next && !longer(next.atMm, atMm) ? next.mm : 0
}
