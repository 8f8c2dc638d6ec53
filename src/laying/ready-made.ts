import { exceeds, LENGTH_SLACK_MM, wholePiecesIn } from '../measure/counting.ts'
import { panelCurve, panelLengthMm, sameRadius } from '../plan/panels.ts'
import type { Pack, Panel, Stick } from '../plan/rows/supplies.ts'
import { bestCutPlan } from './cutting/best-cut-plan.ts'
import type { CutRules } from './cutting/cut-plan.ts'
import type { SearchEffort } from './cutting/effort.ts'
import type { Work } from './cutting/problem.ts'

/** A stretch of one curvature that ready-made pieces cover from end to end. */
export interface Stretch {
  /** Of the centre line; null where it is straight. */
  readonly radiusMm: number | null
  /** Along the centre line, grade included and without the gaps in its joints (see `bareRun`). */
  readonly lengthMm: number
}

/**
 * Ready-made pieces that can be used together in one stretch: straight or of one radius, all with ties or all without.
 */
export interface PanelKind {
  readonly radiusMm: number | null
  readonly withTies: boolean
  /** Indexes of its pieces in the supplies; no two have the same length. */
  readonly panels: readonly number[]
}

/** A stretch made of pieces, joined end to end. */
export interface Covering {
  readonly pieces: readonly CoveringPiece[]
  /** How much the pieces fall short of the stretch: left open in its joints, see `LEFT_OPEN_MM`. */
  readonly leftOpenMm: number
}

export interface CoveringPiece {
  /** Index in the supplies. */
  readonly panel: number
  /** Along the pieces, from the start of the stretch. */
  readonly fromMm: number
  readonly lengthMm: number
  /** Nothing is cut off it. */
  readonly whole: boolean
}

/** One piece as it is bought or taken from the shed, and what is cut from it. */
export interface UsedPanel {
  readonly panel: number
  readonly fromStock: boolean
  readonly kerfMm: number
  readonly offcutMm: number
  readonly pieces: readonly { readonly stretch: number; readonly lengthMm: number }[]
}

/** The gap left in each joint instead of cutting a very short piece; common practice, no source. */
export const LEFT_OPEN_MM = 0.5

/** The kinds of ready-made pieces, in the order in which they are listed. */
export function panelKinds(panels: readonly Panel[]): PanelKind[] {
  const kinds: (PanelKind & { readonly panels: number[] })[] = []
  for (const [index, panel] of panels.entries()) {
    const { ties } = panel
    const radiusMm = panelCurve(panel)?.radiusMm ?? null
    const kind = kinds.find((each) => each.withTies === ties > 0 && sameRadius(each.radiusMm, radiusMm))
    if (kind) kind.panels.push(index)
    else kinds.push({ radiusMm, withTies: ties > 0, panels: [index] })
  }
  return kinds
}

/**
 * Makes stretches of ready-made pieces of one kind: whole pieces first and one cut from another, so that few are cut,
 * as long as that does not cost more than continuing one stretch with the rest of the one before. What remains of a cut
 * piece is used for other stretches. No piece is shorter than the shortest allowed, unless it is sold that short.
 *
 * A stretch that whole pieces fall short of by at most `LEFT_OPEN_MM` per piece is not filled up.
 *
 * Checked by hand and against an exhaustive search in tests/laying/ready-made.test.ts.
 *
 * @param stretches of the kind's radius
 * @returns null where there are too few pieces and none can be bought
 */
export function coverStretches(
  stretches: readonly Stretch[],
  kind: PanelKind,
  panels: readonly Panel[],
  rules: CutRules,
  effort: SearchEffort,
  work?: Work,
): { readonly coverings: readonly Covering[]; readonly used: readonly UsedPanel[] } | null {
  if (stretches.length === 0) return { coverings: [], used: [] }
  const sticks = kind.panels.map((index): Stick => ({ ...panels[index]!, length: panelLengthMm(panels[index]!) }))
  const runs = stretches.map(({ lengthMm }) => ({ lengthMm: coveredByWhole(lengthMm, sticks) ?? lengthMm }))
  const shortestMm = Math.min(...sticks.map(({ length: lengthMm }) => lengthMm))
  const minimumPieceMm = Math.min(rules.minimumPiece, shortestMm)
  const best = bestCutPlan(
    runs,
    { sticks, joiners: FREE },
    { ...rules, minimumPiece: minimumPieceMm },
    { ...FEW_CUTS, effort, work },
  )
  if (!best.ok) return null
  const panelOf = (lengthMm: number) => kind.panels[sticks.findIndex((stick) => stick.length === lengthMm)]!
  const pieces = stretches.map((): CoveringPiece[] => [])
  for (const stick of best.plan.sticks) {
    const panel = panelOf(stick.lengthMm)
    for (const { run, fromMm, lengthMm } of stick.pieces)
      pieces[run]!.push({ panel, fromMm, lengthMm, whole: !exceeds(stick.lengthMm, lengthMm) })
  }
  return {
    coverings: stretches.map(({ lengthMm }, index) => ({
      pieces: pieces[index]!.sort((a, b) => a.fromMm - b.fromMm),
      leftOpenMm: lengthMm - runs[index]!.lengthMm,
    })),
    used: best.plan.sticks.map(({ lengthMm, fromStock, kerfMm, offcutMm, pieces: cut }) => ({
      panel: panelOf(lengthMm),
      fromStock,
      kerfMm,
      offcutMm,
      pieces: cut.map(({ run, lengthMm: pieceMm }) => ({ stretch: run, lengthMm: pieceMm })),
    })),
  }
}

/** Joiners are counted with the rest of the bill. */
const FREE: Pack = { packSize: 1, pricePerPack: '0.00', onHand: 0, sparePct: 0, massEachG: null }
const FEW_CUTS = { otherJoints: 0, cutting: 'whole-sticks', keepsFirst: true } as const

/** The most that whole pieces of one or two lengths cover of a stretch, if the rest may stay open. */
function coveredByWhole(lengthMm: number, sticks: readonly Stick[]): number | null {
  let best: number | null = null
  const tryWith = (pieces: number, sumMm: number) => {
    if (pieces === 0 || exceeds(sumMm, lengthMm) || lengthMm - sumMm > LEFT_OPEN_MM * pieces + LENGTH_SLACK_MM) return
    best = Math.max(best ?? 0, Math.min(sumMm, lengthMm))
  }
  for (const one of sticks) {
    const most = wholePiecesIn(lengthMm, one.length)
    tryWith(most, most * one.length)
    for (const other of sticks) {
      if (!exceeds(one.length, other.length)) continue
      for (let count = 0; count < most; count++) {
        const more = wholePiecesIn(lengthMm - count * one.length, other.length)
        tryWith(count + more, count * one.length + more * other.length)
      }
    }
  }
  return best
}
