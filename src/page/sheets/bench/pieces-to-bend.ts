import type { Bend, BendMark, CutPiece, EasementForming, Estimate, TrackAnswer } from '../../../estimate/answer.ts'
import { comparisonKey } from '../saw/identical-sticks.ts'
import { pieceMarks } from '../saw/piece-marks.ts'

/** Pieces that are sawn, marked and bent alike. */
export interface PieceToBend extends Pick<CutPiece, 'sawLengthMm' | 'trimStartMm' | 'trimEndMm'> {
  readonly marks: readonly string[]
  readonly finishedMm: number
  readonly bends: readonly BendOfPiece[]
}

/** One bend of a piece, with how its curve is bent, or the stations of the easement that lie on the piece. */
export type BendOfPiece = BendMark &
  (
    | { readonly curve: Bend; readonly stations: null }
    | {
        readonly curve: null
        readonly stations: readonly StationOfPiece[]
        /** Whether the curves it leads to are sprung in, and it with them. */
        readonly sprungIn: boolean
      }
  )

type Station = EasementForming['stations'][number]

export type StationOfPiece = Station & {
  /** Where to mark it, from the sawn end. */
  readonly markMm: number
}

/** The pieces of loose rail: those to bend, alike ones together, and the marks of the straight ones. */
export function piecesToBend(estimate: Estimate): {
  readonly bent: readonly PieceToBend[]
  readonly straight: readonly string[]
} {
  const markOf = pieceMarks(estimate)
  const groups = new Map<string, CutPiece[]>()
  const straight: string[] = []
  for (const piece of markOf.keys()) {
    if (piece.bends.length === 0) {
      straight.push(markOf.get(piece)!)
      continue
    }
    const key = JSON.stringify(comparisonKey(piece))
    groups.set(key, [...(groups.get(key) ?? []), piece])
  }
  const bent = [...groups.values()].map((pieces) => {
    const piece = pieces[0]!
    const { bends, sawLengthMm, trimStartMm, trimEndMm } = piece
    return {
      ...{ sawLengthMm, trimStartMm, trimEndMm },
      marks: pieces.map((each) => markOf.get(each)!),
      finishedMm: piece.lengthMm,
      bends: bends.flatMap((bend) => bendOfPiece(bend, piece, estimate)),
    }
  })
  return { bent, straight }
}

/** Empty where the answer says nothing about the curve, as in ready-made track. */
function bendOfPiece(bend: BendMark, piece: CutPiece, { tracks, bends, easements }: Estimate): BendOfPiece[] {
  const track = tracks.find(({ name }) => name === piece.track)
  if (!track) return []
  const { element, startMm } = elementUnder(track, piece.rail, piece.fromMm + (bend.fromMm + bend.toMm) / 2)
  const isHere = (each: { readonly track: string; readonly element: number; readonly side: string }) =>
    each.track === piece.track && each.element === element && each.side === piece.rail
  const curve = bends.find(isHere)
  if (curve) return [{ ...bend, curve, stations: null }]
  const eased = easements.find(isHere)
  if (!eased) return []
  const shiftMm = startMm - piece.fromMm + (bend.markFromMm - bend.fromMm)
  const stations = eased.stations
    .map((station) => ({ ...station, markMm: station.atMm + shiftMm }))
    .filter(({ markMm }) => markMm > bend.markFromMm - SAME_PLACE_MM && markMm < bend.markToMm + SAME_PLACE_MM)
  const neighbours = bends.filter(
    (each) =>
      each.track === piece.track && each.side === piece.rail && isNextTo(each.element, element, track.elements.length),
  )
  const sprungIn = neighbours.length > 0 && neighbours.every(({ forming }) => forming.method === 'spring-in')
  return [{ ...bend, curve: null, stations, sprungIn }]
}

/** Also over the start of a closed track. */
function isNextTo(one: number, other: number, count: number): boolean {
  const apart = Math.abs(one - other)
  return apart === 1 || apart === count - 1
}

const SAME_PLACE_MM = 0.5

/** The element under a place of a rail, and where along the rail it begins. */
function elementUnder({ elements }: TrackAnswer, rail: 'left' | 'right', atMm: number) {
  let startMm = 0
  for (const { index, rails } of elements) {
    const endMm = startMm + rails[rail].lengthMm
    if (atMm < endMm || index === elements.length - 1) return { element: index, startMm }
    startMm = endMm
  }
  return { element: 0, startMm: 0 }
}
