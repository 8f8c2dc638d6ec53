import type { Bend, Estimate } from '../../estimate/answer.ts'

/** Curves of one radius: the same two rails, wherever in the plan they lie. */
export interface Curve {
  readonly radiusMm: number
  readonly places: readonly CurvePlace[]
  /** Of the longest of them, which takes every chord that any of them takes. */
  readonly outer: Bend
  readonly inner: Bend
}

export interface CurvePlace {
  /** Numbers of track and element, from 0. */
  readonly track: number
  readonly element: number
  readonly outer: Bend
  readonly inner: Bend
  /** How far the inner rail of assembled track stands out past the outer one; it goes by the angle. */
  readonly creepMm: number | null
}

/** The curves of a plan, tightest first, those of one radius together. */
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
    const look = radiusMm.toFixed(4)
    const place = { track, element, outer, inner, creepMm: inner.forming.assembled?.creepMm ?? null }
    const known = curves.get(look)
    known?.places.push(place)
    if (!known || known.outer.lengthMm < outer.lengthMm)
      curves.set(look, { radiusMm, places: known?.places ?? [place], outer, inner })
  }
  return [...curves.values()].sort((a, b) => a.radiusMm - b.radiusMm)
}

/** Places of a curve by what is to be said of them, in the order in which they come. */
export function placesBy<T>(
  places: readonly CurvePlace[],
  say: (place: CurvePlace) => T,
): { readonly said: T; readonly places: readonly CurvePlace[] }[] {
  const groups = new Map<string, { said: T; places: CurvePlace[] }>()
  for (const place of places) {
    const said = say(place)
    const key = JSON.stringify(said)
    const group = groups.get(key)
    if (group) group.places.push(place)
    else groups.set(key, { said, places: [place] })
  }
  return [...groups.values()]
}
