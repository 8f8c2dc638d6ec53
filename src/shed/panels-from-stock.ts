import type { ReadyMadeAnswer } from '../estimate/answer.ts'
import { panelName } from '../estimate/bill/needs.ts'
import type { Assumption } from '../plan/fields/complete.ts'
import type { PanelSize } from '../plan/panels.ts'
import { isTwin, sameRadius } from '../plan/panels.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { PanelInput, SuppliesInput } from '../plan/rows/supplies.ts'
import type { StockedPanel } from './stock.ts'

/** Ready-made pieces of a plan, some of which the shed has. */
export interface StockedPanels {
  readonly panels: readonly PanelInput[]
  /** What is filled in, and why. */
  readonly assumptions: readonly Assumption[]
  readonly drawn: readonly DrawnPanel[]
}

/** A piece that the shed has, and its place in the plan as it is filled in. */
export interface DrawnPanel {
  readonly panel: number
  readonly row: StockedPanel
}

/** Whether a plan may use ready-made track: it lists some, or says when to. Otherwise it uses none. */
export function usesReadyMade(supplies: Pick<SuppliesInput, 'panels' | 'readyMade'> = {}): boolean {
  const { panels = [], readyMade } = supplies
  return readyMade !== 'never' && (panels.length > 0 || readyMade !== undefined)
}

/**
 * At most this many unlisted sizes of one curve, with ties or without, are offered to a plan: each takes time to
 * compare.
 */
const MOST_ADDED = 4

/**
 * Fills in what is on hand of the pieces a plan lists, and adds those that are only in the shed as not to be bought: of
 * straights and of the curves that the plan has, the longest sizes (`MOST_ADDED`). Of one size a plan has only one
 * piece with ties: if it lists one, pieces with more or fewer ties stay in the shed, and of those that are only in the
 * shed those with fewer ties stay there.
 *
 * @param rows of the plan's rail, as `tidy` orders them
 * @param reason why what is in the shed is on hand
 */
export function panelsFromStock(
  { supplies, tracks }: Pick<PlanInput, 'supplies' | 'tracks'>,
  rows: readonly StockedPanel[],
  reason: string,
): StockedPanels {
  const panels = [...(supplies?.panels ?? [])]
  const assumptions: Assumption[] = []
  const drawn: DrawnPanel[] = []
  const added = new Map<string, number>()
  for (const row of usesReadyMade(supplies) ? rows : []) {
    const { ties, count } = row
    const stocked: PanelInput = { ...sizeOf(row), ties, joiners: 0, packSize: 1, onHand: count, buyable: false }
    const index = panels.findIndex((panel) => isTwin(panel, stocked))
    const there = panels[index]
    if (there && ((there.ties ?? 0) !== ties || there.onHand !== undefined)) continue
    const kind = `${row.radiusMm} ${ties > 0}`
    const ofKind = added.get(kind) ?? 0
    if (!there && (ofKind === MOST_ADDED || !hasCurve(tracks, row.radiusMm))) continue
    if (!there) added.set(kind, ofKind + 1)
    const panel = there ? index : panels.length
    panels[panel] = there ? { ...there, onHand: count } : stocked
    const value = there ? String(count) : `${count} of ${nameOf(row)}, none to be bought`
    assumptions.push({ field: `/supplies/panels/${panel}/onHand`, value, reason })
    drawn.push({ panel, row })
  }
  return { panels, assumptions, drawn }
}

/** Whether new track has an arc of this radius; null: a straight. */
function hasCurve(tracks: PlanInput['tracks'], radiusMm: number | null): boolean {
  return tracks.some(
    ({ state = 'new', elements }) =>
      state === 'new' &&
      elements.some(
        (element) =>
          element.kind !== 'easement' && sameRadius(element.kind === 'arc' ? element.radius : null, radiusMm),
      ),
  )
}

function sizeOf({ lengthMm, radiusMm, angleDeg }: StockedPanel): PanelSize {
  if (radiusMm === null || angleDeg === null) return { length: lengthMm }
  return { radius: radiusMm, angle: angleDeg }
}

/** Such as "straight track, 600 mm (1 ft 11-5/8 in), with 13 ties". */
export function nameOf(row: StockedPanel): string {
  const name = panelName({ name: null, ties: row.ties, ...sizeOf(row) })
  return `${name.charAt(0).toLowerCase()}${name.slice(1)}`
}

/** What an estimate takes of the pieces that the shed has. */
export function panelsTaken(drawn: readonly DrawnPanel[], readyMade: ReadyMadeAnswer | null): StockedPanel[] {
  return drawn.map(({ panel, row }) => {
    const used = readyMade?.panels.filter((each) => each.panel === panel).length ?? 0
    return { ...row, count: Math.min(used, row.count) }
  })
}
