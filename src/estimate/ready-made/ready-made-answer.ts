import { billOf } from '../../laying/bill.ts'
import { DEG_PER_RAD } from '../../measure/angle.ts'
import { panelCurve, panelLengthMm } from '../../plan/panels.ts'
import type { Panel } from '../../plan/rows/supplies.ts'
import type { ReadyMadeAnswer } from '../answer.ts'
import { panelName } from '../bill/needs.ts'
import type { LaidOut } from '../cutting/lay-out.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { ChosenLayOut } from './choose-ready-made.ts'
import type { Coverage } from './coverage.ts'

/** Which elements are covered by ready-made pieces from end to end, as `track/element` by index. */
export function elementsCovered({ stretches }: Coverage): ReadonlySet<string> {
  return new Set(stretches.map(({ track, element }) => `${track}/${element}`))
}

/** Null where the plan lists no ready-made track. */
export function readyMadeAnswer(
  { laidOut, elements, choice, loose }: ChosenLayOut & { readonly ok: true },
  laid: readonly LaidTrack[],
  { supplies }: Plan,
): ReadyMadeAnswer | null {
  const { panels, readyMade } = supplies
  if (panels.length === 0) return null
  const { stretches, used } = laidOut.covered
  const trackName = (track: number) => laid[track]!.name
  const cost = (made: LaidOut | null) => made && costOf(made, supplies)
  return {
    choice: readyMade,
    cost: cost(laidOut),
    looseCost: cost(loose),
    stretches: stretches
      .filter(({ turnout }) => !turnout)
      .toSorted((a, b) => a.track - b.track || a.fromMm - b.fromMm)
      .map(({ track, element, radiusMm, fromMm, toMm, leftOpenMm, pieces }) => ({
        track: trackName(track),
        element,
        radiusMm,
        fromMm,
        toMm,
        leftOpenMm,
        pieces: pieces.map(({ panel, fromStationMm, toStationMm, lengthMm, whole }) => ({
          panel,
          fromMm: fromStationMm,
          toMm: toStationMm,
          ...sizeOf(lengthMm, panels[panel]!),
          whole,
        })),
      })),
    panels: used.map(({ panel, fromStock, kerfMm, offcutMm, pieces }) => ({
      panel,
      name: panelName(panels[panel]!),
      lengthMm: panelLengthMm(panels[panel]!),
      fromStock,
      kerfMm,
      offcutMm,
      pieces: pieces.map(({ stretch, lengthMm }) => {
        const { track, element } = stretches[stretch]!
        return { track: trackName(track), element, ...sizeOf(lengthMm, panels[panel]!) }
      }),
    })),
    loose: [
      ...elements.left,
      ...elements.coverable.flatMap(({ track, element, kinds }, index) =>
        choice[index] === null
          ? [
              {
                track,
                element,
                reason: looseReason(
                  kinds.flatMap((kind) => elements.kinds[kind]!.panels),
                  supplies,
                ),
              },
            ]
          : [],
      ),
    ]
      .sort((a, b) => a.track - b.track || a.element - b.element)
      .map(({ track, element, reason }) => ({ track: trackName(track), element, reason })),
  }
}

function sizeOf(lengthMm: number, panel: Panel): { lengthMm: number; angleDeg: number | null } {
  const curve = panelCurve(panel)
  return { lengthMm, angleDeg: curve && (lengthMm / curve.radiusMm) * DEG_PER_RAD }
}

/** Null where something to be bought has no price. */
function costOf({ lines }: LaidOut, supplies: Plan['supplies']) {
  const bill = billOf(lines, supplies)
  return bill.lines.some(({ packs, amount }) => packs > 0 && amount === null) ? null : bill.total
}

/** Why an element that pieces fit is made of loose rail. */
function looseReason(fitting: readonly number[], { panels, sticks, readyMade }: Plan['supplies']): string {
  const pieces = fitting.map((index) => panels[index]!)
  if (pieces.every(({ buyable }) => !buyable)) return 'there are not enough pieces on hand'
  if (readyMade === 'always') return 'there are not enough pieces'
  if (pieces.every(({ buyable, price }) => !buyable || price === null)) return 'its pieces have no price'
  if (sticks.some(({ buyable, price }) => buyable && price === null)) return 'loose rail has no price to compare with'
  return 'loose rail is cheaper'
}
