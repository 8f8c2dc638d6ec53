import type { Finding } from '../../checking/finding.ts'
import { SHORTEST_MM } from '../../fitting/figures/elements.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { lengthLike } from '../../measure/as-written.ts'
import type { TurnoutType } from '../../plan/rows/turnouts.ts'
import { turnoutOf } from '../../track/turnout/turnout.ts'
import type { TurnoutGeometry } from '../../track/turnout/types.ts'
import type { LaidTurnout } from '../track/turnouts-of-plan.ts'
import { freeId } from './hand-proposals.ts'
import { type Line, sentElements, unitOf } from './line.ts'

/** A crossover: a straight track from the diverging leg of one turnout to that of another. */
interface Crossover {
  readonly from: Placed
  readonly to: Placed
  /** Index of the straight's track. */
  readonly over: number
}

interface Placed {
  /** Index of its track. */
  readonly track: number
  readonly turnout: LaidTurnout
}

/** A kind to be used instead, and what of the patch brings it into the plan. */
interface Kind {
  readonly id: string
  readonly geometry: TurnoutGeometry
  readonly added: Patch
}

/** Frogs that are made for gardens. Common practice, no source. */
const NUMBERS = [4, 5, 6, 7, 8, 10]
/** So many kinds are proposed. */
const MOST_KINDS = 4
/** Lengths are written to a thousandth of a mm or to 1/64 in, so that legs are still met. */
const STEP = 3

/**
 * Two turnouts with curved frogs back to back as a crossover exchanged for a kind with a straight frog, which is longer and
 * has a straight between its curve and its end. The tracks stay where they are: the first turnout keeps its points, the
 * second is moved along its track to where the crossover comes out,
 *
 * E₁ + s·h = E₂ + t·u
 *
 * E₁, E₂ the ends of the diverging legs with the new kind at the old points, h the heading of the crossover, s its straight,
 * u that of the second turnout from its points, t how far it moves. The straights beside both make up for it.
 */
export function straightFrogs({ element }: Finding, line: Line, track: number): Patch[] {
  const crossover = crossoverAt(line, track, element)
  if (!crossover) return []
  return kindsFor(crossover, line).flatMap((kind) => {
    const patch = withKind(crossover, kind, line)
    return patch ? [patch] : []
  })
}

function crossoverAt({ tracks, plan }: Line, track: number, element: number | null): Crossover | null {
  const at = tracks[track]!.turnouts.find((turnout) => turnout.element === element)
  if (!at) return null
  const named = (name: string | undefined): Placed | null => {
    const index = tracks.findIndex(({ turnouts }) => turnouts.some((turnout) => turnout.name === name))
    const turnout = tracks[index]?.turnouts.find((each) => each.name === name)
    return turnout ? { track: index, turnout } : null
  }
  for (const [over, { legs, placed }] of tracks.entries()) {
    const { start, end } = legs
    if (start?.leg !== 'diverging' || end?.leg !== 'diverging') continue
    if (start.turnout !== at.name && end.turnout !== at.name) continue
    const [from, to] = [named(start.turnout), named(end.turnout)]
    if (placed.length !== 1 || placed[0]!.kind !== 'tangent' || !from || !to) continue
    const types = [from, to].map(({ turnout }) => plan.turnoutTypes.find(({ id }) => id === turnout.type)!)
    const isCurved = types.every(({ form, hand }) => form === 'curved-frog' && hand !== 'wye')
    if (isCurved && types[0]!.hand === types[1]!.hand) return { from, to, over }
  }
  return null
}

/** Kinds of the plan first, then new ones: those that leave enough straight between their curves, then the others. */
function kindsFor({ from, to }: Crossover, { plan, input }: Line): Kind[] {
  const { turnoutTypes, gauge } = plan
  const old = turnoutTypes.find(({ id }) => id === from.turnout.type)!
  const ofPlan = turnoutTypes
    .filter(({ form, hand, id }) => form === 'straight-frog' && hand === old.hand && plan.special.turnouts.has(id))
    .map(({ id }): Kind => ({ id, geometry: plan.special.turnouts.get(id)!, added: [] }))
  const room = { apartMm: Math.abs(acrossMm(from.turnout, to.turnout)), leastMm: plan.supplies.minimumPiece }
  const limitMm = plan.standards.minimumTangentBetweenReverseCurves ?? 0
  const made = NUMBERS.flatMap((number) => newKind(number, old, room, gauge, input.turnoutTypes ?? []))
  const isEnough = ({ straightMm }: { readonly straightMm: number }) => straightMm >= limitMm / 2
  const inOrder = [...made.filter(isEnough), ...made.filter((kind) => !isEnough(kind))]
  return [...ofPlan, ...inOrder].slice(0, MOST_KINDS)
}

/** How far the points of one turnout lie beside the line of the other. */
function acrossMm({ ends: { points: a } }: LaidTurnout, { ends: { points: b } }: LaidTurnout): number {
  return (b.yMm - a.yMm) * Math.cos(a.headingRad) - (b.xMm - a.xMm) * Math.sin(a.headingRad)
}

/** A kind with a straight frog, its legs ended where two of them and a piece of rail have room between the tracks. */
function newKind(
  number: number,
  { hand, buyable }: TurnoutType,
  { apartMm, leastMm }: { readonly apartMm: number; readonly leastMm: number },
  gaugeMm: number,
  types: readonly { readonly id: string }[],
): (Kind & { readonly straightMm: number })[] {
  const usual = turnoutOf({ hand, number }, gaugeMm)
  if (!usual.ok) return []
  const { pieces, end } = usual.turnout.legs.diverging
  const { start } = pieces.at(-1)!
  const slope = Math.abs(Math.tan(end.headingRad))
  const sideMm = apartMm / 2 - (leastMm / 2) * Math.abs(Math.sin(end.headingRad))
  const isUsual = Math.abs(end.yMm) <= sideMm
  const lengthMm = Math.floor(start.xMm + (sideMm - Math.abs(start.yMm)) / slope)
  const size = { hand, number, ...(!isUsual && { length: lengthMm }) }
  const made = isUsual ? usual : turnoutOf(size, gaugeMm)
  if (!made.ok || Math.abs(start.yMm) > sideMm) return []
  const id = freeId(`No. ${number}, ${hand}`, types)
  const value = { id, ...size, ...(!buyable && { buyable: false }) }
  const straightMm = (apartMm - 2 * Math.abs(start.yMm)) / Math.abs(Math.sin(end.headingRad))
  return [{ id, geometry: made.turnout, added: [{ op: 'add', path: '/turnoutTypes/-', value }], straightMm }]
}

function withKind({ from, to, over }: Crossover, { id, geometry, added }: Kind, line: Line): Patch | null {
  const [one, other] = [legEnd(from.turnout, geometry), legEnd(to.turnout, geometry)]
  const [hx, hy] = [Math.cos(one.headingRad), Math.sin(one.headingRad)]
  const [ux, uy] = [Math.cos(other.alongRad), Math.sin(other.alongRad)]
  const [dx, dy] = [other.xMm - one.xMm, other.yMm - one.yMm]
  // s·h − t·u = E₂ − E₁
  const determinant = -hx * uy + hy * ux
  if (Math.abs(determinant) < 1e-6) return null
  const straightMm = (-dx * uy + dy * ux) / determinant
  const movedMm = (hx * dy - hy * dx) / determinant
  if (straightMm < SHORTEST_MM) return null
  const beside = [besideTurnout(from, geometry, 0, line), besideTurnout(to, geometry, movedMm, line)]
  if (beside.some((patch) => patch === null)) return null
  const path = `/tracks/${over}/elements/0/length`
  const length = lengthLike(sentElements(line, over)[0]!.length, straightMm, STEP)
  const types = [from, to].map(({ track, turnout }): Patch[number] => {
    return { op: 'replace', path: `/tracks/${track}/elements/${turnout.element}/type`, value: id }
  })
  return [...added, ...types, ...beside.flatMap((patch) => patch!), { op: 'replace', path, value: length }]
}

/** The end of the diverging leg of a kind whose points lie where those of a turnout do. */
function legEnd({ ends: { points } }: LaidTurnout, { legs }: TurnoutGeometry) {
  const alongRad = points.headingRad + Math.PI
  const [cos, sin] = [Math.cos(alongRad), Math.sin(alongRad)]
  const { xMm, yMm, headingRad } = legs.diverging.end
  return {
    xMm: points.xMm + xMm * cos - yMm * sin,
    yMm: points.yMm + xMm * sin + yMm * cos,
    headingRad: alongRad + headingRad,
    alongRad,
  }
}

/** The straights before and behind a turnout that is moved ahead from its points and becomes longer; null without them. */
function besideTurnout(
  { track, turnout }: Placed,
  geometry: TurnoutGeometry,
  movedMm: number,
  line: Line,
): Patch | null {
  const { element, enters, fromMm, toMm } = turnout
  const longerMm = geometry.legs.through.lengthMm - (toMm - fromMm)
  const [beforeMm, behindMm] = enters === 'points' ? [movedMm, -movedMm - longerMm] : [-movedMm - longerMm, movedMm]
  const before = changed(track, element - 1, beforeMm, line)
  const isLast = element === line.tracks[track]!.placed.length - 1
  const behind = isLast ? [] : changed(track, element + 1, behindMm, line)
  return before && behind && [...before, ...behind]
}

function changed(track: number, index: number, byMm: number, line: Line): Patch | null {
  if (byMm === 0) return []
  const straight = line.tracks[track]!.placed[index]
  if (straight?.kind !== 'tangent' || straight.lengthMm + byMm < SHORTEST_MM) return null
  const sent = sentElements(line, track)
  const value = lengthLike(sent[index]!.length ?? unitOf(sent), straight.lengthMm + byMm, STEP)
  return [{ op: 'replace', path: `/tracks/${track}/elements/${index}/length`, value }]
}
