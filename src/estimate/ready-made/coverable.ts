import { type PanelKind, panelKinds } from '../../laying/ready-made.ts'
import { exceeds } from '../../measure/counting.ts'
import { formatMm } from '../../measure/length.ts'
import { sameRadius } from '../../plan/panels.ts'
import type { KeepOut } from '../../plan/rows/track.ts'
import type { PlacedElement } from '../../track/types.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'

/** An element that ready-made pieces may cover, in parts between its breaks. */
export interface Coverable {
  readonly track: number
  readonly element: number
  /** Of the centre line; null on a tangent. */
  readonly radiusMm: number | null
  /** Stations. */
  readonly parts: readonly { readonly fromMm: number; readonly toMm: number }[]
  /** Indexes in `kinds` of the pieces that fit. */
  readonly kinds: readonly number[]
}

/** An element that stays loose rail, and why. */
interface LooseElement {
  readonly track: number
  readonly element: number
  readonly reason: string
}

export interface CoverableElements {
  readonly kinds: readonly PanelKind[]
  readonly coverable: readonly Coverable[]
  readonly left: readonly LooseElement[]
}

/** Which elements of new track ready-made pieces fit, and why not the others. */
export function coverableElements(laid: readonly LaidTrack[], { supplies }: Pick<Plan, 'supplies'>): CoverableElements {
  const kinds = panelKinds(supplies.panels)
  const coverable: Coverable[] = []
  const left: LooseElement[] = []
  for (const [track, { placed, breaks, keepOut }] of laid.entries())
    for (const element of placed) {
      const { index, fromMm, toMm } = element
      const fitting = kindsFor(element, kinds)
      const reason = typeof fitting === 'string' ? fitting : keepOutReason(element, keepOut)
      if (reason !== null || typeof fitting === 'string') {
        left.push({ track, element: index, reason: reason! })
        continue
      }
      const inside = breaks.map(({ at: atMm }) => atMm).filter((mm) => exceeds(mm, fromMm) && exceeds(toMm, mm))
      const ends = [fromMm, ...inside, toMm]
      const parts = ends.slice(1).map((end, n) => ({ fromMm: ends[n]!, toMm: end }))
      coverable.push({ track, element: index, radiusMm: radiusOf(element), parts, kinds: fitting })
    }
  return { kinds, coverable, left }
}

/** The kinds that fit an element, or why none does. */
function kindsFor(element: PlacedElement, kinds: readonly PanelKind[]): readonly number[] | string {
  if (element.kind === 'easement') return 'an easement has no constant radius'
  if (element.kind === 'turnout' || element.kind === 'crossing') return `a ${element.kind} is not plain track`
  const radiusMm = radiusOf(element)
  const fitting = [...kinds.keys()].filter((kind) => sameRadius(kinds[kind]!.radiusMm, radiusMm))
  if (fitting.length > 0) return fitting
  if (radiusMm === null) return 'no straight piece is listed'
  const radii = kinds.flatMap((kind) => kind.radiusMm ?? [])
  if (radii.length === 0) return 'no curved piece is listed'
  const away = (mm: number) => Math.abs(mm - radiusMm)
  const nearest = radii.reduce((a, b) => (away(a) <= away(b) ? a : b))
  return `no piece has a radius of ${formatMm(radiusMm, 1)}; the nearest is ${formatMm(nearest, 1)}`
}

function radiusOf({ startCurvature }: PlacedElement): number | null {
  return startCurvature === 0 ? null : 1 / Math.abs(startCurvature)
}

/** Why stretches without joints exclude ready-made pieces, which have joints at their ends. */
function keepOutReason({ fromMm, toMm }: PlacedElement, keepOut: readonly KeepOut[]): string | null {
  const stretch = keepOut.find((each) => exceeds(Math.min(each.to, toMm), Math.max(each.from, fromMm)))
  if (!stretch) return null
  const place = `${formatMm(stretch.from)} and ${formatMm(stretch.to)}`
  return `no joint is allowed between ${place}${stretch.reason ? ` (${stretch.reason})` : ''}, and pieces would have one there`
}
