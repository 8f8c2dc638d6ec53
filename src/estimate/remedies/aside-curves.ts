import type { Patch } from '../../fitting/json-patch.ts'
import { followedBy, motionOf, NOWHERE } from '../../fitting/motion.ts'
import { mmOf, radiusLike, radiusOfSize } from '../../fitting/patches.ts'
import { toDegrees } from '../../measure/angle.ts'
import { angleLike, lengthLike } from '../../measure/as-written.ts'
import { poseAlong } from '../../track/clothoid.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import { type Aside, LEAST_STRAIGHT_MM } from './aside.ts'
import { type Line, sentElements } from './line.ts'

/** Straights that enclose less than this cannot make room for another radius. */
const LEAST_SINE = 0.05

/**
 * Another radius for the arc there, between the same two straights, which are as much longer or shorter as that takes:
 * the motion of the curve and its easements, before and after, differs by a vector that the two straights make up for.
 * On the arc of a circle between tangents, without easements, it moves by (R′ − R)(sec(Δ/2)·cos α − 1) at an angle α from
 * its middle, towards its centre.
 */
export function otherRadius(aside: Aside, line: Line): Patch[] {
  const curve = curveAt(aside, line)
  if (!curve) return []
  const { arc, before, behind } = curve
  const bend = Math.sign(arc.turnedRad)
  const alongMm = Math.min(arc.toMm, Math.max(arc.fromMm, aside.atMm)) - arc.fromMm
  const share = alongMm / arc.lengthMm
  const radiusMm = 1 / Math.abs(arc.startCurvature)
  // By how much the place moves with each millimetre of radius, to the left.
  const moved = laidOut(curve, radiusMm + 1)
  const still = laidOut(curve, radiusMm)
  if (!moved || !still) return []
  const [from, to] = [placeOn(still, share), placeOn(moved, share)]
  const each = (to.yMm - from.yMm) * Math.cos(from.headingRad) - (to.xMm - from.xMm) * Math.sin(from.headingRad)
  if (Math.abs(each) < 1e-3) return []
  const wantedMm = radiusMm + aside.byMm / each
  if (wantedMm < (line.plan.standards.minimumRadius ?? 0)) return []
  const sent = sentElements(line, aside.track)[arc.index]!
  const size = radiusLike(sent, wantedMm, 1, wantedMm > radiusMm ? 'up' : 'down')
  const newMm = radiusOfSize(sent, size)
  const laid = laidOut(curve, newMm)
  if (!laid || [before, behind].some((each, n) => each.lengthMm + laid.moreMm[n]! < LEAST_STRAIGHT_MM)) return []
  const at = `/tracks/${aside.track}/elements`
  const ofArc: Patch =
    sent.angle === undefined
      ? [step(`${at}/${arc.index}/length`, lengthLike(sent.length, newMm * Math.abs(laid.arcRad), 3))]
      : laid.arcRad === arc.turnedRad
        ? []
        : [step(`${at}/${arc.index}/angle`, angleLike(toDegrees(bend * laid.arcRad), 4))]
  return [
    [
      step(`${at}/${arc.index}/${size.field}`, size.value),
      ...ofArc,
      ...[before, behind].map(({ index, lengthMm }, n) => {
        const given = sentElements(line, aside.track)[index]!.length
        return step(`${at}/${index}/length`, lengthLike(given, lengthMm + laid.moreMm[n]!, 3))
      }),
    ],
  ]
}

function step(path: string, value: string | number): Patch[number] {
  return { op: 'replace', path, value }
}

interface Curve {
  readonly before: PlacedElement
  /** Lengths of the easements; 0: none. */
  readonly inMm: number
  readonly arc: PlacedElement
  readonly outMm: number
  readonly behind: PlacedElement
}

/** The arc there, or the one beside an easement there, if it lies between two straights. */
function curveAt({ track, element }: Aside, line: Line): Curve | null {
  const { placed } = line.tracks[track]!
  const here = placed[element]!
  const arc = [here, ...(here.kind === 'easement' ? [placed[element + 1], placed[element - 1]] : [])].find(
    (each) => each?.kind === 'arc',
  )
  if (!arc) return null
  const easement = (each: PlacedElement | undefined) => (each?.kind === 'easement' ? each.lengthMm : 0)
  const [inMm, outMm] = [easement(placed[arc.index - 1]), easement(placed[arc.index + 1])]
  const before = placed[arc.index - (inMm > 0 ? 2 : 1)]
  const behind = placed[arc.index + (outMm > 0 ? 2 : 1)]
  return before?.kind === 'tangent' && behind?.kind === 'tangent' ? { before, inMm, arc, outMm, behind } : null
}

interface LaidCurve {
  readonly radiusMm: number
  readonly arcRad: number
  /** Of the straights before and behind. */
  readonly moreMm: readonly [number, number]
  /** Where the arc begins, seen from the end of the straight before it as it is. */
  readonly start: Pose
}

function laidOut({ inMm, arc, outMm }: Curve, radiusMm: number): LaidCurve | null {
  const bend = Math.sign(arc.turnedRad)
  const turned = (mm: number, radius: number) => mm / (2 * radius)
  const oldMm = 1 / Math.abs(arc.startCurvature)
  const wholeRad = Math.abs(arc.turnedRad) + turned(inMm + outMm, oldMm)
  const arcRad = radiusMm === oldMm ? Math.abs(arc.turnedRad) : wholeRad - turned(inMm + outMm, radiusMm)
  if (!(arcRad > 0.01)) return null
  const motion = (radius: number, angleRad: number) => {
    const curvature = bend / radius
    const easement = (lengthMm: number, from: number, to: number) =>
      motionOf({ startCurvature: from, endCurvature: to, lengthMm, turnedRad: bend * turned(lengthMm, radius) })
    const before = inMm > 0 ? easement(inMm, 0, curvature) : NOWHERE
    const lengthMm = radius * angleRad
    const round = { startCurvature: curvature, endCurvature: curvature, lengthMm, turnedRad: bend * angleRad }
    const after = outMm > 0 ? easement(outMm, curvature, 0) : NOWHERE
    return { before, all: followedBy(followedBy(before, motionOf(round)), after) }
  }
  const [then, now] = [motion(oldMm, Math.abs(arc.turnedRad)), motion(radiusMm, arcRad)]
  const headingRad = then.all.headingRad
  if (Math.abs(Math.sin(headingRad)) < LEAST_SINE) return null
  const [dx, dy] = [then.all.xMm - now.all.xMm, then.all.yMm - now.all.yMm]
  const behindMm = dy / Math.sin(headingRad)
  const beforeMm = dx - behindMm * Math.cos(headingRad)
  const start = { ...now.before, xMm: now.before.xMm + beforeMm }
  return { radiusMm, arcRad: bend * arcRad, moreMm: [beforeMm, behindMm], start }
}

function placeOn({ radiusMm, arcRad, start }: LaidCurve, share: number): Pose {
  const curvature = Math.sign(arcRad) / radiusMm
  return poseAlong(start, curvature, curvature, radiusMm * Math.abs(arcRad), share * radiusMm * Math.abs(arcRad))
}

/** Radii of the arcs that a straight is swung aside with, in minimum radii, and how far before it they end, in cars. */
const WIDE = [4, 2, 1]
const CLEAR_CARS = [1, 0.5, 0]

/**
 * The straight there swung to the side and back: arcs of one radius R and one angle φ, with a straight t between those that
 * curve opposite ways, so that 2R(1 − cos φ) + t·sin φ is how far it goes aside. Both swings together are as long along the
 * straight as 2·(2R·sin φ + t·cos φ), which the straight gives up.
 */
export function swungAside({ track, fromMm, toMm, element, byMm }: Aside, line: Line): Patch[] {
  const here = line.tracks[track]!.placed[element]!
  if (here.kind !== 'tangent') return []
  const { minimumRadius, minimumTangentBetweenReverseCurves, longestCar } = line.plan.standards
  const carMm = longestCar ?? 0
  const straightMm = minimumTangentBetweenReverseCurves ?? carMm
  const given = sentElements(line, track)[element]!.length
  const [firstMm, lastMm] = [Math.max(here.fromMm, fromMm), Math.min(here.toMm, toMm)]
  if (!(lastMm >= firstMm)) return []
  for (const cars of CLEAR_CARS)
    for (const times of WIDE) {
      const radius = lengthLike(given, times * (minimumRadius ?? 600), 1, 'up')
      const swing = swingOf(mmOf(radius), straightMm, Math.abs(byMm))
      const beforeMm = firstMm - cars * carMm - swing.longMm - here.fromMm
      const behindMm = here.toMm - lastMm - cars * carMm - swing.longMm
      if (beforeMm < LEAST_STRAIGHT_MM || behindMm < LEAST_STRAIGHT_MM) continue
      const beyondMm = lastMm - firstMm + 2 * cars * carMm
      const [there, back] = byMm > 0 ? (['left', 'right'] as const) : (['right', 'left'] as const)
      const straight = (mm: number) => ({ kind: 'tangent', length: lengthLike(given, mm, 3) })
      const arc = (turn: string) => ({ kind: 'arc', radius, angle: swing.angleDeg, turn })
      const between = straightMm > 0 ? [straight(straightMm)] : []
      const added = [
        arc(there),
        ...between,
        arc(back),
        straight(beyondMm),
        arc(back),
        ...between,
        arc(there),
        straight(behindMm),
      ]
      const at = `/tracks/${track}/elements`
      // All at one place, the last first: so it is plain which elements are new.
      return [
        [
          step(`${at}/${element}/length`, straight(beforeMm).length),
          ...added.reverse().map((value): Patch[number] => ({ op: 'add', path: `${at}/${element + 1}`, value })),
        ],
      ]
    }
  return []
}

/** To a thousandth of a degree upwards, and how long it is along the straight. */
function swingOf(radiusMm: number, straightMm: number, asideMm: number): { angleDeg: number; longMm: number } {
  // 2R(1 − cos φ) + t·sin φ = a: with u = tan(φ/2), (4R − a)u² + 2t·u − a = 0.
  const square = Math.sqrt(straightMm ** 2 + Math.max(0, (4 * radiusMm - asideMm) * asideMm))
  const u = asideMm / (straightMm + square)
  const angleDeg = angleLike(toDegrees(2 * Math.atan(u)), 3, 'up')
  const rad = (angleDeg * Math.PI) / 180
  return { angleDeg, longMm: 2 * radiusMm * Math.sin(rad) + straightMm * Math.cos(rad) }
}
