import type { Bend, BendMark, CutPiece, EasementForming, Estimate, TrackAnswer } from '../../../estimate/answer.ts'
import { comparisonKey } from '../saw/identical-sticks.ts'
import { pieceMarks } from '../saw/piece-marks.ts'
import { PrintedPieces } from '../saw/printed-pieces.ts'

/** Pieces that are sawn, marked and bent alike. */
export interface PieceToBend {
  readonly marks: readonly string[]
  /** The first of them. */
  readonly piece: CutPiece
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
        /** The tightest curve it leads to, whose passes it takes; null where it leads to none of its turn. */
        readonly leadsTo: Bend | null
      }
  )

type Station = EasementForming['stations'][number]

export type StationOfPiece = Station & {
  /** Where it is, from the finished start of the piece. */
  readonly onPieceMm: number
}

/** The pieces of loose rail: those to bend, alike ones together, and the marks of the straight ones. */
export function piecesToBend(
  estimate: Estimate,
  printed = new PrintedPieces(estimate.cutting.sticks),
): {
  readonly bent: readonly PieceToBend[]
  readonly straight: readonly string[]
} {
  const markOf = pieceMarks(estimate)
  const groups = new Map<string, CutPiece[]>()
  const straight: string[] = []
  for (const piece of markOf.keys()) {
    if (piece.bends.length === 0) {
      if (!isKinked(piece, estimate)) straight.push(markOf.get(piece)!)
      continue
    }
    const key = JSON.stringify(comparisonKey(piece, printed))
    groups.set(key, [...(groups.get(key) ?? []), piece])
  }
  const bent = [...groups.values()].map((pieces) => {
    const piece = pieces[0]!
    return {
      marks: pieces.map((each) => markOf.get(each)!),
      piece,
      bends: piece.bends.flatMap((bend) => bendOfPiece(bend, piece, estimate)),
    }
  })
  return { bent, straight }
}

/** Whether it is a rail of a turnout that is bent in one place. */
function isKinked({ track, turnout }: CutPiece, { tracks }: Estimate): boolean {
  if (!turnout) return false
  const elements = tracks.find(({ name }) => name === track)?.elements ?? []
  const of = elements.find((each) => each.turnout?.name === turnout.name)?.turnout
  return (of?.rails?.[turnout.rail]?.kinks.length ?? 0) > 0
}

/** Empty where the answer says nothing about the curve, as in ready-made track. */
function bendOfPiece(bend: BendMark, piece: CutPiece, { tracks, bends, easements }: Estimate): BendOfPiece[] {
  const track = tracks.find(({ name }) => name === piece.track)
  if (!track) return []
  if (piece.turnout) return bendOfTurnout(bend, piece.turnout, bends)
  const { element, startMm } = elementUnder(track, piece.rail, piece.fromMm + (bend.fromMm + bend.toMm) / 2)
  const isHere = (each: Pick<Bend, 'track' | 'element' | 'side' | 'turnout'>) =>
    each.track === piece.track && each.element === element && each.side === piece.rail && !each.turnout
  const curve = bends.find(isHere)
  if (curve) return [{ ...bend, curve, stations: null }]
  const eased = easements.find(isHere)
  if (!eased) return []
  const shiftMm = startMm - piece.fromMm
  const onPiece = eased.stations.map((station) => ({ ...station, onPieceMm: station.atMm + shiftMm }))
  const stations = stationsBetween(onPiece, bend.fromMm, bend.toMm)
  const neighbours = bends.filter(
    (each) =>
      each.track === piece.track &&
      each.side === piece.rail &&
      !each.turnout &&
      isNextTo(each.element, element, track.elements.length),
  )
  const sprungIn = neighbours.length > 0 && neighbours.every(({ forming }) => forming.method === 'spring-in')
  const ofTurn = neighbours.filter(({ turn }) => turn === bend.turn).sort((a, b) => a.radiusMm - b.radiusMm)
  return [{ ...bend, curve: null, stations, sprungIn, leadsTo: ofTurn[0] ?? null }]
}

/** A rail of a turnout may have several bends: that of the radius marked. */
function bendOfTurnout(
  bend: BendMark,
  { name, rail }: NonNullable<CutPiece['turnout']>,
  bends: readonly Bend[],
): BendOfPiece[] {
  const own = bends.filter(({ turnout, turn }) => turnout?.name === name && turnout.rail === rail && turn === bend.turn)
  const off = ({ radiusMm }: Bend) => Math.abs(radiusMm - bend.radiusMm!)
  const curve = own.toSorted((a, b) => off(a) - off(b))[0]
  return curve ? [{ ...bend, curve, stations: null }] : []
}

/** The stations between two places of a piece, and what is between two stations at those places themselves. */
function stationsBetween(stations: readonly StationOfPiece[], fromMm: number, toMm: number): StationOfPiece[] {
  const isAt = (mm: number) => stations.some(({ onPieceMm }) => Math.abs(onPieceMm - mm) < SAME_PLACE_MM)
  const ends = [fromMm, toMm].filter((mm) => !isAt(mm)).map((mm) => stationAt(stations, mm))
  return [...stations, ...ends.filter((station) => station !== null)]
    .filter(({ onPieceMm }) => onPieceMm > fromMm - SAME_PLACE_MM && onPieceMm < toMm + SAME_PLACE_MM)
    .sort((a, b) => a.onPieceMm - b.onPieceMm)
}

/** Curvature, depth and turns change evenly from one station to the next; null outside them. */
function stationAt(stations: readonly StationOfPiece[], onPieceMm: number): StationOfPiece | null {
  const next = stations.findIndex((station) => station.onPieceMm > onPieceMm)
  if (next <= 0) return null
  const [a, b] = [stations[next - 1]!, stations[next]!]
  const share = (onPieceMm - a.onPieceMm) / (b.onPieceMm - a.onPieceMm)
  const between = (from: number, to: number) => from + (to - from) * share
  const even = (from: number | null, to: number | null) =>
    from === null || to === null ? (from ?? to) : between(from, to)
  const radius = (from: number | null, to: number | null) =>
    from === null && to === null ? null : 1 / between(from === null ? 0 : 1 / from, to === null ? 0 : 1 / to)
  return {
    onPieceMm,
    atMm: between(a.atMm, b.atMm),
    wantedRadiusMm: radius(a.wantedRadiusMm, b.wantedRadiusMm),
    formingRadiusMm: radius(a.formingRadiusMm, b.formingRadiusMm),
    depthMm: even(a.depthMm, b.depthMm),
    turns: even(a.turns, b.turns),
  }
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
