import { firstIndexWhere } from '../measure/search.ts'
import type { GradeStretch } from '../track/grade.ts'
import { type PlacedElement, partsOf } from '../track/types.ts'

/**
 * A quantity along a track whose rate changes evenly between stations: height (its rate is the grade) or the angle turned
 * without regard to its side (its rate is the curvature).
 */
export interface Running {
  readonly fromMm: number
  readonly toMm: number
  readonly rate: number
  readonly endRate: number
}

/** Where a rate, or the rate at which it changes, becomes another: stations in order, and by how much. */
interface Corners {
  readonly atMm: Float64Array
  readonly rate: Float64Array
  readonly bend: Float64Array
}

/** A track, or a way from track to track, as a train climbs it, in one direction. */
export interface Hill {
  /** From here on the front of the train is looked at; what lies before it is only stood on. */
  readonly frontFromMm: number
  readonly lengthMm: number
  /** Whether trains run round it for ever. */
  readonly closed: boolean
  readonly height: RunningTotal
  readonly turned: RunningTotal
}

/**
 * The sum of a quantity from the start of the track. Beyond the ends of an open track the quantity goes on as it is there;
 * round a closed one it begins again.
 */
export class RunningTotal {
  readonly pieces: readonly Running[]
  readonly greatestRate: number
  readonly corners: Corners
  private readonly totals: readonly number[]
  private readonly lengthMm: number
  private readonly closed: boolean

  constructor(pieces: readonly Running[], closed: boolean) {
    this.pieces = pieces
    this.closed = closed
    this.lengthMm = pieces.at(-1)!.toMm
    this.greatestRate = pieces.reduce(
      (most, { rate, endRate }) => Math.max(most, rate, endRate),
      Number.NEGATIVE_INFINITY,
    )
    this.corners = cornersOf(pieces, closed)
    let total = 0
    this.totals = [
      0,
      ...pieces.map(({ fromMm, toMm, rate, endRate }) => {
        total += ((rate + endRate) / 2) * (toMm - fromMm)
        return total
      }),
    ]
  }

  at(mm: number): number {
    const { lengthMm, pieces, totals } = this
    const round = this.closed ? Math.floor(mm / lengthMm) : 0
    const withinMm = mm - round * lengthMm
    const found = firstIndexWhere(pieces.length, (index) => pieces[index]!.fromMm > withinMm) - 1
    const index = Math.max(0, found)
    const { fromMm, toMm, rate, endRate } = pieces[index]!
    const alongMm = withinMm - fromMm
    const before = round * totals.at(-1)! + totals[index]!
    if (alongMm < 0) return before + rate * alongMm
    if (withinMm > toMm) return before + ((rate + endRate) / 2) * (toMm - fromMm) + endRate * (withinMm - toMm)
    return before + rate * alongMm + ((endRate - rate) * alongMm ** 2) / (2 * (toMm - fromMm))
  }

  /** The rate at a station, and how it changes from there on. */
  rateAt(mm: number): { rate: number; bend: number } {
    const { lengthMm, pieces, closed } = this
    if (!closed && mm < 0) return { rate: pieces[0]!.rate, bend: 0 }
    const withinMm = closed ? mm - Math.floor(mm / lengthMm) * lengthMm : mm
    const after = firstIndexWhere(pieces.length, (index) => pieces[index]!.fromMm > withinMm)
    const piece = pieces[Math.max(0, after - 1)]!
    const bend = bendOf(piece)
    return { rate: piece.rate + bend * (withinMm - piece.fromMm), bend }
  }

  reversed(sign: 1 | -1): RunningTotal {
    const pieces = this.pieces.map((piece) => reversedPiece(piece, this.lengthMm, sign))
    return new RunningTotal(pieces.reverse(), this.closed)
  }
}

/** A track as it is run over from its start to its end. */
export interface HillTrack {
  readonly lengthMm: number
  readonly closed: boolean
  readonly grades: readonly GradeStretch[]
  readonly placed: readonly PlacedElement[]
}

export function hillOf({ lengthMm, closed, grades, placed }: HillTrack): Hill {
  const height = grades.map(({ fromMm, toMm, grade, endGrade = grade }) => ({
    fromMm,
    toMm,
    rate: grade,
    endRate: endGrade,
  }))
  return {
    frontFromMm: 0,
    lengthMm,
    closed,
    height: new RunningTotal(height, closed),
    turned: new RunningTotal(curvaturesOf(placed.flatMap(partsOf)), closed),
  }
}

/** A part of a way: height and angle turned from its start on. */
export interface HillPart {
  readonly lengthMm: number
  readonly height: readonly Running[]
  readonly turned: readonly Running[]
}

/** Parts end to end, of which a train stands on the first with its rear only. At least one has a length. */
export function hillAlong(parts: readonly HillPart[], frontFromMm: number, lengthMm: number): Hill {
  const total = (of: 'height' | 'turned') => new RunningTotal(shiftedOn(parts, of), false)
  return { frontFromMm, lengthMm, closed: false, height: total('height'), turned: total('turned') }
}

function shiftedOn(parts: readonly HillPart[], of: 'height' | 'turned'): Running[] {
  let beforeMm = 0
  return parts.flatMap((part) => {
    const startMm = beforeMm
    beforeMm += part.lengthMm
    return part[of].map(({ fromMm, toMm, rate, endRate }) => {
      return { fromMm: startMm + fromMm, toMm: startMm + toMm, rate, endRate }
    })
  })
}

/** The same part from its end: what rises falls, and curves stay curves. */
export function reversedPart({ lengthMm, height, turned }: HillPart): HillPart {
  const reversed = (pieces: readonly Running[], sign: 1 | -1) =>
    pieces.map((piece) => reversedPiece(piece, lengthMm, sign)).reverse()
  return { lengthMm, height: reversed(height, -1), turned: reversed(turned, 1) }
}

function reversedPiece({ fromMm, toMm, rate, endRate }: Running, lengthMm: number, sign: 1 | -1): Running {
  return { fromMm: lengthMm - toMm, toMm: lengthMm - fromMm, rate: sign * endRate, endRate: sign * rate }
}

/** From its end to its start: what rises falls, and curves stay curves. */
export function reversedHill(hill: Hill): Hill {
  return { ...hill, height: hill.height.reversed(-1), turned: hill.turned.reversed(1) }
}

/** Curvature without its side; divided where an easement is straight between its ends. */
export function curvaturesOf(
  pieces: readonly Pick<PlacedElement, 'lengthMm' | 'startCurvature' | 'endCurvature'>[],
): Running[] {
  let fromMm = 0
  return pieces.flatMap(({ lengthMm, startCurvature: k0, endCurvature: k1 }) => {
    const toMm = fromMm + lengthMm
    const straightMm = k0 * k1 < 0 ? fromMm + (lengthMm * k0) / (k0 - k1) : toMm
    const halves: Running[] = [
      { fromMm, toMm: straightMm, rate: Math.abs(k0), endRate: straightMm < toMm ? 0 : Math.abs(k1) },
    ]
    if (straightMm < toMm) halves.push({ fromMm: straightMm, toMm, rate: 0, endRate: Math.abs(k1) })
    fromMm = toMm
    return halves
  })
}

function bendOf({ fromMm, toMm, rate, endRate }: Running): number {
  return rate === endRate ? 0 : (endRate - rate) / (toMm - fromMm)
}

function cornersOf(pieces: readonly Running[], closed: boolean): Corners {
  const [first, last] = [pieces[0]!, pieces.at(-1)!]
  const within = pieces.slice(1).map((piece, index) => {
    const before = pieces[index]!
    return { atMm: piece.fromMm, rate: piece.rate - before.endRate, bend: bendOf(piece) - bendOf(before) }
  })
  // Round a closed track the end leads to the start; beyond the ends of an open one the rate stays what it is there.
  const corners = closed
    ? [{ atMm: 0, rate: first.rate - last.endRate, bend: bendOf(first) - bendOf(last) }, ...within]
    : [{ atMm: 0, rate: 0, bend: bendOf(first) }, ...within, { atMm: last.toMm, rate: 0, bend: -bendOf(last) }]
  return {
    atMm: Float64Array.from(corners, ({ atMm }) => atMm),
    rate: Float64Array.from(corners, ({ rate }) => rate),
    bend: Float64Array.from(corners, ({ bend }) => bend),
  }
}
