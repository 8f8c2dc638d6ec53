import type { Bend, Estimate } from '../../estimate/answer.ts'

/** Curves that are bent alike: the same two rails, wherever in the plan they lie. */
export interface Curve {
  readonly radiusMm: number
  readonly places: readonly CurvePlace[]
  readonly outer: Bend
  readonly inner: Bend
}

export interface CurvePlace {
  /** Numbers of track and element, from 0. */
  readonly track: number
  readonly element: number
  /** How far the inner rail of assembled track stands out past the outer one; it goes by the angle. */
  readonly creepMm: number | null
}

/** The curves of a plan, tightest first, those alike together. */
export function curvesAlike({ bends, tracks }: Pick<Estimate, 'bends' | 'tracks'>): Curve[] {
  const trackNumbers = new Map(tracks.map(({ name }, index) => [name, index] as const))
  const placeOf = ({ track, element }: Bend) => JSON.stringify([track, element])
  const inners = new Map(bends.filter(({ rail }) => rail === 'inner').map((bend) => [placeOf(bend), bend] as const))
  const curves = new Map<string, Curve & { places: CurvePlace[] }>()
  for (const outer of bends) {
    if (outer.rail !== 'outer') continue
    const { element } = outer
    const track = trackNumbers.get(outer.track) ?? 0
    const inner = inners.get(placeOf(outer))
    const radiusMm = tracks[track]?.elements[element]?.radiusMm
    if (!inner || !radiusMm) continue
    const look = JSON.stringify([radiusMm.toFixed(4), lookOf(outer), lookOf(inner)])
    const place = { track, element, creepMm: inner.forming.assembled?.creepMm ?? null }
    const known = curves.get(look)
    if (known) known.places.push(place)
    else curves.set(look, { radiusMm, places: [place], outer, inner })
  }
  return [...curves.values()].sort((a, b) => a.radiusMm - b.radiusMm)
}

/** What the length of a bend and its joints decide; all else on a card follows from the radius. */
function lookOf({ ordinates, recommendedChordMm, forming }: Bend): unknown {
  return [ordinates.map(({ chordMm }) => chordMm), recommendedChordMm?.toFixed(4), forming.reason]
}
