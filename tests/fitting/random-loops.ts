import type { ElementInput, Turn } from '../../src/plan/rows/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement, straight } from '../estimate/plans.ts'

const ORIGIN = { xMm: 0, yMm: 0, headingRad: 0 }

/** Where a track that starts at the origin ends. */
export function endOf(elements: readonly ElementInput[]) {
  return placeElements(ORIGIN, elements, true).at(-1)!.end
}

/**
 * A closed track as people draw them: straights, arcs of a few radii at three to six corners, some with an S in a side or
 * easements, its figures rounded to a tenth of a millimetre or of a degree. Two of the straights are as long as it
 * takes.
 */
export function randomLoop(random: () => number): ElementInput[] {
  for (;;) {
    const loop = drawn(random)
    if (loop) return loop
  }
}

function drawn(random: () => number): ElementInput[] | null {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!
  const corners = 3 + Math.floor(random() * 4)
  const turn: Turn = random() < 0.5 ? 'left' : 'right'
  const eased = random() < 0.3
  const angles = cornerAngles(random, corners)
  const elements: ElementInput[] = []
  const radius = pick([1200, 1500, 1800, 2438.4])
  for (const angle of angles) {
    elements.push(straight(50 * (10 + Math.floor(random() * 60))))
    if (random() < 0.2) {
      const bend = 5 * (2 + Math.floor(random() * 5))
      const other: Turn = turn === 'left' ? 'right' : 'left'
      elements.push(
        arc(radius, bend, other),
        straight(400),
        arc(radius, bend, turn),
        straight(50 * (4 + Math.floor(random() * 20))),
      )
    }
    const own = random() < 0.3 ? pick([1200, 1500, 1800, 2438.4]) : radius
    const lostDeg = (400 / own) * (180 / Math.PI)
    if (eased && angle > lostDeg + 5) elements.push(easement(400), arc(own, angle - lostDeg, turn), easement(400))
    else elements.push(arc(own, angle, turn))
  }
  return closedByTwoStraights(elements)
}

function cornerAngles(random: () => number, corners: number): number[] {
  const step = random() < 0.7 ? 5 : 0.1
  const parts = Array.from({ length: corners }, () => 0.5 + random())
  const total = parts.reduce((sum, part) => sum + part)
  const angles = parts.map((part) => Math.round((part / total) * (360 / step)) * step)
  const rest = 360 - angles.slice(1).reduce((sum, angle) => sum + angle, 0)
  return [rest, ...angles.slice(1)].map((angle) => Math.round(angle * 10) / 10)
}

/** The pair of straights that closes it, to a tenth of a millimetre; null where it would take too much of them. */
function closedByTwoStraights(elements: ElementInput[]): ElementInput[] | null {
  const placed = placeElements(ORIGIN, elements, true)
  const { xMm, yMm } = placed.at(-1)!.end
  const straights = placed.filter(({ kind }) => kind === 'tangent')
  for (const one of straights)
    for (const other of straights) {
      const [u, v] = [one.start.headingRad, other.start.headingRad]
      const sine = Math.sin(v - u)
      if (Math.abs(sine) < 0.3) continue
      const a = one.lengthMm - (xMm * Math.sin(v) - yMm * Math.cos(v)) / sine
      const b = other.lengthMm + (xMm * Math.sin(u) - yMm * Math.cos(u)) / sine
      if (Math.min(a, b) < 200 || Math.max(a, b) > 9000) continue
      const tenth = (mm: number) => Math.round(mm * 10) / 10
      return elements.map((element, index) =>
        index === one.index ? straight(tenth(a)) : index === other.index ? straight(tenth(b)) : element,
      )
    }
  return null
}

/** A loop with one figure or turn changed, and which. */
export interface Slipped {
  readonly elements: ElementInput[]
  readonly element: number
  readonly kind: 'angle' | 'turn' | 'length'
}

export function withSlip(loop: readonly ElementInput[], kind: Slipped['kind'], random: () => number): Slipped {
  const fits = loop.flatMap((element, index) =>
    element.kind === (kind === 'length' ? 'tangent' : 'arc') ? [index] : [],
  )
  const at = fits[Math.floor(random() * fits.length)]!
  const way = random() < 0.5 ? 1 : -1
  const elements = loop.map((element, index): ElementInput => {
    if (index !== at) return element
    if (element.kind === 'tangent')
      return { ...element, length: element.length + way * (20 + Math.floor(random() * 160)) }
    if (element.kind !== 'arc') return element
    if (kind === 'turn') return { ...element, turn: element.turn === 'left' ? 'right' : 'left' }
    return { ...element, angle: element.angle! + way * Math.min(1 + Math.floor(random() * 9), element.angle! / 2) }
  })
  return { elements, element: at, kind }
}
