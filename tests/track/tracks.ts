import fc from 'fast-check'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { curvatureOn, elementAt, poseOn } from '../../src/track/place.ts'
import type { PlacedElement, Pose } from '../../src/track/types.ts'

/** Plans for the property tests: random tracks without two adjacent easements or one between equal curvatures. */

export const ORIGIN: Pose = { xMm: 0, yMm: 0, headingRad: 0 }

export const degrees = (rad: number) => (rad * 180) / Math.PI
export const radians = (deg: number) => (deg * Math.PI) / 180

export const tangent = (lengthMm: number): ElementInput => ({ kind: 'tangent', length: lengthMm })
export const easement = (lengthMm: number): ElementInput => ({ kind: 'easement', length: lengthMm })
export const arc = (radiusMm: number, angleDeg: number, turn: 'left' | 'right'): ElementInput => ({
  kind: 'arc',
  radius: radiusMm,
  angle: angleDeg,
  turn,
})

const length = fc.double({ min: 1, max: 20_000, noNaN: true })
const turn = fc.constantFrom('left' as const, 'right' as const)
const constantElement: fc.Arbitrary<ElementInput> = fc.oneof(
  length.map(tangent),
  fc
    .record({ radius: fc.double({ min: 600, max: 50_000, noNaN: true }), turn, length })
    .map((size) => ({ kind: 'arc' as const, ...size })),
  fc
    .record({
      radiusMm: fc.double({ min: 600, max: 50_000, noNaN: true }),
      turn,
      angleDeg: fc.double({ min: 0.01, max: 800, noNaN: true }),
    })
    .map(({ radiusMm, angleDeg, turn }) => arc(radiusMm, angleDeg, turn)),
)

export const curvatureOf = (element: ElementInput | undefined) =>
  element?.kind === 'arc' ? (element.turn === 'left' ? 1 : -1) / element.radius : 0

/** Tangents and arcs, with an easement wherever one may stand and the draw says so; either end may be an easement. */
export const elements: fc.Arbitrary<ElementInput[]> = fc
  .array(fc.record({ element: constantElement, eased: fc.option(length, { nil: null }) }), {
    minLength: 1,
    maxLength: 12,
  })
  .map((draws) => {
    const made: ElementInput[] = []
    let before: ElementInput | undefined
    for (const { element, eased } of draws) {
      if (eased !== null && curvatureOf(before) !== curvatureOf(element)) made.push(easement(eased))
      made.push(element)
      before = element
    }
    return made
  })

export const pose: fc.Arbitrary<Pose> = fc.record({
  xMm: fc.double({ min: -1e5, max: 1e5, noNaN: true }),
  yMm: fc.double({ min: -1e5, max: 1e5, noNaN: true }),
  headingRad: fc.double({ min: -7, max: 7, noNaN: true }),
})

export const mirrored = (track: readonly ElementInput[]): ElementInput[] =>
  track.map((element) =>
    element.kind === 'arc' ? { ...element, turn: element.turn === 'left' ? 'right' : 'left' } : element,
  )

export const scaled = (track: readonly ElementInput[], factor: number): ElementInput[] =>
  track.map((element) => {
    if (element.kind === 'tangent' || element.kind === 'easement')
      return { ...element, length: element.length * factor }
    if (element.kind !== 'arc') return element
    const length = element.length === undefined ? undefined : element.length * factor
    return { ...element, radius: element.radius * factor, length }
  })

/** Distance of two poses on the sheet, mm. */
export const apartMm = (a: Pose, b: Pose) => Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm)

/** What a point may be off by: 1e-9 of the track's length and of its distance from the origin. */
export const slackMm = (lengthMm: number, start: Pose = ORIGIN) =>
  1e-9 * (lengthMm + Math.hypot(start.xMm, start.yMm) + 1)

/** The pose of the centre line, and its curvature, at a station of a track. */
export const poseAt = (placed: readonly PlacedElement[], atMm: number) => poseOn(elementAt(placed, atMm), atMm)
export const curvatureAt = (placed: readonly PlacedElement[], atMm: number) =>
  curvatureOn(elementAt(placed, atMm), atMm)
