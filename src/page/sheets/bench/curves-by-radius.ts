import type { Bend, Estimate } from '../../../estimate/answer.ts'

/** All curves of one radius in a plan. */
export interface Curve {
  readonly radiusMm: number
  readonly places: readonly CurvePlace[]
  /** The rail of the longest curve, which every chord fits that fits any of them. */
  readonly outer: Bend
  readonly inner: Bend
}

export interface CurvePlace {
  /** Numbers of track and element, from 0. */
  readonly track: number
  readonly element: number
  readonly outer: Bend
  readonly inner: Bend
  /** How far the inner rail of assembled track creeps past the outer one; it depends on the angle. */
  readonly creepMm: number | null
}

/** The curves of a plan, grouped by radius, tightest first; without those of turnouts, whose rails are bent one by one. */
export function curvesByRadius({ bends: all, tracks }: Pick<Estimate, 'bends' | 'tracks'>): Curve[] {
  const bends = all.filter(({ turnout }) => !turnout)
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
    const key = radiusMm.toFixed(4)
    const place = { track, element, outer, inner, creepMm: inner.forming.assembled?.creepMm ?? null }
    const known = curves.get(key)
    known?.places.push(place)
    if (!known || known.outer.lengthMm < outer.lengthMm)
      curves.set(key, { radiusMm, places: known?.places ?? [place], outer, inner })
  }
  return [...curves.values()].sort((a, b) => a.radiusMm - b.radiusMm)
}

/** Groups the places of a curve by a value, in order of first appearance. */
export function groupPlaces<T>(
  places: readonly CurvePlace[],
  valueAt: (place: CurvePlace) => T,
): { readonly value: T; readonly places: readonly CurvePlace[] }[] {
  const groups = new Map<string, { value: T; places: CurvePlace[] }>()
  for (const place of places) {
    const value = valueAt(place)
    const key = JSON.stringify(value)
    const group = groups.get(key)
    if (group) group.places.push(place)
    else groups.set(key, { value, places: [place] })
  }
  return [...groups.values()]
}
