import type { TrackInput } from '../../../src/plan/rows/track.ts'
import { elevationBy } from './drawn-grade.ts'
import { curvatureOf, type DrawnElement, drawnElements, type KindInput, lengthOf } from './drawn-turnout.ts'

/** A place of a rail as drawn, in plan. */
export interface DrawnPlace {
  readonly x: number
  readonly y: number
  /** Heading, radians. */
  readonly heading: number
  /** Curvature of the rail in plan, left positive. */
  readonly curvature: number
}

const STEP_MM = 2

/**
 * A rail drawn by small steps along the centre line: the point beside each step, (gauge + head)/2 away, and the length
 * along the laid rail, grade included. Independent of the program's placing and of its closed forms.
 */
export class DrawnRail {
  /** Turnouts on the track, with the stations of their ends. */
  readonly turnouts: readonly { readonly name: string; readonly fromMm: number; readonly toMm: number }[]
  private readonly stations: number[] = [0]
  private readonly along: number[] = [0]
  private readonly places: DrawnPlace[] = []

  constructor(track: TrackInput, side: 'left' | 'right', offsetMm: number, kinds: readonly KindInput[] = []) {
    const { closed = false, gradeLine = [] } = track
    const { elements, turnouts } = drawnElements(track.elements, kinds)
    this.turnouts = turnouts
    const offset = side === 'left' ? offsetMm : -offsetMm
    const elevationAt = elevationBy(gradeLine)
    let [x, y, heading, s, elevation] = [0, 0, 0, 0, elevationAt(0)]
    const put = (k: number) =>
      this.places.push({
        x: x - offset * Math.sin(heading),
        y: y + offset * Math.cos(heading),
        heading,
        curvature: k / (1 - offset * k),
      })
    put(curvatureOf(elements[0]!))
    for (const [index, element] of elements.entries()) {
      const lengthMm = lengthOf(element)
      const [from, to] = curvatures(elements, index, closed)
      const steps = Math.ceil(lengthMm / STEP_MM)
      for (let step = 0; step < steps; step++) {
        const h = lengthMm / steps
        const k = from + ((to - from) * (step + 0.5)) / steps
        const turned = k * h
        // The chord of the step, exact for an arc.
        const chord = turned === 0 ? h : (h * Math.sin(turned / 2)) / (turned / 2)
        x += chord * Math.cos(heading + turned / 2)
        y += chord * Math.sin(heading + turned / 2)
        heading += turned
        s += h
        const rise = elevationAt(s) - elevation
        elevation += rise
        this.stations.push(s)
        this.along.push(this.along.at(-1)! + Math.hypot(h - offset * turned, rise))
        put(from + ((to - from) * (step + 1)) / steps)
      }
    }
  }

  get lengthMm(): number {
    return this.along.at(-1)!
  }

  /** The place this far along the laid rail. */
  at(alongMm: number): DrawnPlace {
    return this.between(this.along, alongMm)
  }

  /** The place beside a station. */
  beside(stationMm: number): DrawnPlace {
    return this.between(this.stations, stationMm)
  }

  /** How far along the laid rail a station is. */
  alongAt(stationMm: number): number {
    const { low, share } = interval(this.stations, stationMm)
    return this.along[low]! + (this.along[low + 1]! - this.along[low]!) * share
  }

  private between(list: readonly number[], mm: number): DrawnPlace {
    const { low, share } = interval(list, mm)
    const [a, b] = [this.places[low]!, this.places[low + 1]!]
    const mix = (of: (place: DrawnPlace) => number) => of(a) + (of(b) - of(a)) * share
    return {
      x: mix(({ x }) => x),
      y: mix(({ y }) => y),
      heading: mix((p) => p.heading),
      curvature: mix((p) => p.curvature),
    }
  }

  /** Length in plan of each mm of laid rail, about a place. */
  planPerMm(alongMm: number): number {
    const [from, to] = [Math.max(0, alongMm - 5), Math.min(this.lengthMm, alongMm + 5)]
    const [a, b] = [this.at(from), this.at(to)]
    return Math.min(1, Math.hypot(b.x - a.x, b.y - a.y) / (to - from) / sinc((b.heading - a.heading) / 2))
  }
}

/** Between which two of ascending numbers another lies, and how far. */
function interval(list: readonly number[], value: number) {
  let [low, high] = [0, list.length - 1]
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (list[middle]! <= value) low = middle
    else high = middle
  }
  return { low, share: (value - list[low]!) / (list[high]! - list[low]!) }
}

const sinc = (x: number) => (x === 0 ? 1 : Math.sin(x) / x)

function curvatures(elements: readonly DrawnElement[], index: number, closed: boolean): [number, number] {
  const element = elements[index]!
  if (element.kind !== 'easement') return [curvatureOf(element), curvatureOf(element)]
  const beside = (way: 1 | -1) => {
    const wrapped = (index + way + elements.length) % elements.length
    const inside = index + way >= 0 && index + way < elements.length
    return inside || closed ? curvatureOf(elements[wrapped]!) : 0
  }
  return [beside(-1), beside(1)]
}
