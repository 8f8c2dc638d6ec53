import { cutPieces, type Line, type LinePiece } from '../room/line.ts'
import { type BoundingBox, boundingBox } from '../track/bounding-box.ts'
import type { Pose } from '../track/types.ts'
import type { Fouled } from './fouling.ts'
import { aboutReachOf, type SweptLine } from './swept-lines.ts'
import { MEETING_MM, MOST_STEP_MM, type Sample, sampleAt, type TooClose, worstOf } from './too-close.ts'

interface BesideOptions {
  /** Where nothing stands clear anyway, before fouling points. */
  readonly fouled: readonly Fouled[]
  readonly railAt: (track: number, atMm: number) => number
  /** Rails so far apart in height do not lie beside each other. */
  readonly overMm: number
}

const STEPS_IN_CAR = 5
const LEAST_STEP_MM = 20
/** Where so little more is left between cars in the places looked at, it is looked for exactly. */
const NEARLY_MM = 1
const SQUARE_MM = 0.01
/** Along one track, so many times the room that cars take is not beside itself. */
const APART_ON_TRACK = 3
/** Fouling points are exact to so much. */
const FOULING_MM = 5
/** A curve of more than four turns lies on itself: it need not be looked at as closely. */
const MOST_QUARTERS = 16
/** Places compared at most; a garden's plan takes some thousands. */
const MOST_WORK = 60_000

/** A piece of a track with the rectangle around it and the room of cars beside it. */
interface Part {
  readonly line: number
  readonly fromMm: number
  readonly toMm: number
  readonly box: BoundingBox
}

/**
 * Where two tracks, or two parts of one, run so close beside each other that cars on them would touch: at a station of the
 * one, the end of the room that its cars take is nearer to the other centre line than cars on that reach. Only pieces near
 * each other are compared, from left to right. Where tracks meet or cross, nothing is told.
 * Checked in tests/estimate/track-spacing.test.ts.
 */
export function tooClose(
  lines: readonly SweptLine[],
  options: BesideOptions,
): { readonly found: TooClose[]; readonly complete: boolean } {
  const mostMm = Math.max(0, ...lines.flatMap(({ swept }) => swept.map((each) => each.mostMm)))
  const samples = new Map<string, { one: number; other: number; samples: Sample[] }>()
  let workLeft = MOST_WORK
  let open: Part[] = []
  for (const part of partsOf(lines, mostMm)) {
    open = open.filter(({ box }) => box.maxXMm >= part.box.minXMm)
    for (const beside of open) {
      if (beside.box.minYMm > part.box.maxYMm || beside.box.maxYMm < part.box.minYMm) continue
      const [a, b] = inOrder(part, beside)
      if (a.line === b.line && b.toMm - a.fromMm < APART_ON_TRACK * mostMm) continue
      const found = samplesBeside(a, b, lines, mostMm, options)
      workLeft -= found.looked
      const key = `${a.line} ${b.line}`
      const known = samples.get(key) ?? { one: a.line, other: b.line, samples: [] }
      known.samples.push(...found.samples)
      samples.set(key, known)
    }
    if (workLeft < 0) break
    open.push(part)
  }
  const found = [...samples.values()].flatMap(({ one, other, samples: own }) =>
    stretchesOf(own).flatMap((stretch) => worstOf(stretch, lines[one]!, lines[other]!)),
  )
  return { found: found.toSorted((a, b) => a.track - b.track || a.atMm - b.atMm), complete: workLeft >= 0 }
}

function partsOf(lines: readonly SweptLine[], mostMm: number): Part[] {
  return lines
    .flatMap(({ line, fromMm: ownFrom, toMm: ownTo }, index) => {
      let atMm = 0
      return line.pieces.flatMap(inQuarterTurns).flatMap((piece): Part[] => {
        const fromMm = atMm
        atMm += piece.lengthMm
        if (fromMm < ownFrom - 1e-6 || atMm > ownTo + 1e-6) return []
        const { minXMm, maxXMm, minYMm, maxYMm } = boundingBox(piece)
        const box = {
          minXMm: minXMm - mostMm,
          maxXMm: maxXMm + mostMm,
          minYMm: minYMm - mostMm,
          maxYMm: maxYMm + mostMm,
        }
        return [{ line: index, fromMm, toMm: atMm, box }]
      })
    })
    .sort((a, b) => a.box.minXMm - b.box.minXMm || a.line - b.line || a.fromMm - b.fromMm)
}

/** Each turns by a quarter at most: a longer curve may come near a place twice. */
function inQuarterTurns(piece: LinePiece): LinePiece[] {
  const { startCurvature, endCurvature, lengthMm } = piece
  const turnsRad = Math.max(Math.abs(startCurvature), Math.abs(endCurvature)) * lengthMm
  const parts = Math.min(MOST_QUARTERS, Math.ceil(turnsRad / (Math.PI / 2) - 1e-9))
  if (parts <= 1) return [piece]
  const at = (part: number) => (lengthMm * part) / parts
  return Array.from({ length: parts }, (_, part) => cutPieces([piece], at(part), at(part + 1))).flat()
}

function inOrder(a: Part, b: Part): [Part, Part] {
  const after = a.line - b.line || a.fromMm - b.fromMm
  return after > 0 ? [b, a] : [a, b]
}

function samplesBeside(
  one: Part,
  other: Part,
  lines: readonly SweptLine[],
  mostMm: number,
  options: BesideOptions,
): { samples: Sample[]; looked: number } {
  const [own, their] = [lines[one.line]!, lines[other.line]!]
  const farMm = mostOf(own) + mostOf(their)
  const shortestMm = Math.min(...own.swept.map(({ envelope }) => envelope.car.lengthMm))
  const stepMm = Math.min(MOST_STEP_MM, Math.max(LEAST_STEP_MM, shortestMm / STEPS_IN_CAR))
  const samples: Sample[] = []
  let looked = 0
  let guessMm = (other.fromMm + other.toMm) / 2
  for (let atMm = one.fromMm; ; looked++) {
    const foot = footOn(their.line, own.line.poseAt(atMm), guessMm, other)
    // The distance of two lines cannot shrink faster than one goes along either.
    let nextMm = Math.max(stepMm, foot.apartMm - farMm)
    if (foot.isSquare && foot.apartMm < farMm) {
      guessMm = foot.atMm
      nextMm = stepMm
      const place = { atMm, otherMm: foot.atMm }
      const sample = counts(place, own, their, mostMm, options) && sampleAt(own, their, atMm, foot.atMm, aboutReachOf)
      if (sample && sample.missingMm > -NEARLY_MM) samples.push(sample)
    }
    if (atMm >= one.toMm) break
    atMm = Math.min(one.toMm, atMm + nextMm)
  }
  return { samples, looked }
}

function mostOf({ swept }: SweptLine): number {
  return Math.max(...swept.map(({ mostMm }) => mostMm))
}

const MOST_NEARER = 8

/** The place of a part nearest to a pose, and whether it lies square to it there. */
function footOn(line: Line, { xMm, yMm }: Pose, guessMm: number, { fromMm, toMm }: Part) {
  let atMm = guessMm
  let by = 0
  let pose = line.poseAt(atMm)
  for (let step = 0; step < MOST_NEARER; step++) {
    by = (xMm - pose.xMm) * Math.cos(pose.headingRad) + (yMm - pose.yMm) * Math.sin(pose.headingRad)
    const next = Math.min(toMm, Math.max(fromMm, atMm + by))
    if (Math.abs(next - atMm) < SQUARE_MM) break
    atMm = next
    pose = line.poseAt(atMm)
  }
  return { atMm, apartMm: Math.hypot(xMm - pose.xMm, yMm - pose.yMm), isSquare: Math.abs(by) < SQUARE_MM }
}

function counts(
  sample: Pick<Sample, 'atMm' | 'otherMm'>,
  own: SweptLine,
  their: SweptLine,
  mostMm: number,
  options: BesideOptions,
): boolean {
  const [one, other] = [own.placeAt(sample.atMm), their.placeAt(sample.otherMm)]
  if (own === their) {
    const wayMm = Math.abs(sample.otherMm - sample.atMm)
    const shorterMm = own.line.closed ? Math.min(wayMm, own.line.lengthMm - wayMm) : wayMm
    if (shorterMm < APART_ON_TRACK * mostMm) return false
  }
  const { railAt, overMm, fouled } = options
  if (Math.abs(railAt(one.track, one.atMm) - railAt(other.track, other.atMm)) >= overMm) return false
  const isFouled = (track: number, atMm: number) =>
    fouled.some((each) => each.track === track && atMm > each.fromMm - FOULING_MM && atMm < each.toMm + FOULING_MM)
  return !(isFouled(one.track, one.atMm) && isFouled(other.track, other.atMm))
}

/** Samples that follow each other, without those where the tracks meet or cross. */
function stretchesOf(samples: readonly Sample[]): Sample[][] {
  const stretches: Sample[][] = []
  for (const sample of samples.toSorted((a, b) => a.atMm - b.atMm)) {
    const last = stretches.at(-1)
    if (last && sample.atMm - last.at(-1)!.atMm <= 2 * MOST_STEP_MM) last.push(sample)
    else stretches.push([sample])
  }
  return stretches.filter((stretch) =>
    stretch.every(({ apartMm, side }) => apartMm > MEETING_MM && side === stretch[0]!.side),
  )
}
