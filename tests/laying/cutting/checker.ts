import { parseLength } from '../../../src/measure/length.ts'

/*
 * Looks a cut plan over by itself: it reads what was asked and what was answered, both as JSON, and works out everything
 * else on its own. The only thing it has of the program is how a length is read.
 */

/** What a cut plan has to keep. */
export const CUTTING_RULES = [
  'stick-adds-up',
  'kerf',
  'rail-covered-once',
  'minimum-piece',
  'joint-at-break',
  'keep-out',
  'stagger',
  'square',
  'between-ties',
  'stock',
  'cost',
  'joints-counted',
  'bound',
] as const
export type CuttingRule = (typeof CUTTING_RULES)[number]

export interface Breach {
  readonly rule: CuttingRule
  readonly what: string
}

/** Findings that own up to a rule that could not be kept. */
const OWNED_UP: Readonly<Record<string, CuttingRule>> = {
  'piece-too-short': 'minimum-piece',
  'joint-in-keep-out': 'keep-out',
  'joints-too-near': 'stagger',
  'joints-not-square': 'square',
  'joint-on-tie': 'between-ties',
}

type Length = number | string

export interface SentPlan {
  readonly gauge?: Length
  readonly rail: { readonly section: { readonly headWidth: Length } }
  readonly tracks: readonly SentTrack[]
  readonly supplies?: {
    readonly sticks?: readonly SentStick[]
    readonly joiners?: { readonly packSize?: number; readonly pricePerPack?: string; readonly onHand?: number }
    readonly kerf?: Length
    readonly minimumPiece?: Length
  }
  readonly joints?: {
    readonly stagger?: Length
    readonly arrangement?: 'staggered' | 'square'
    readonly betweenTies?: boolean
  }
}

interface SentTrack {
  readonly name: string
  readonly closed?: boolean
  readonly elements: readonly SentElement[]
  readonly breaks?: readonly { readonly at: Length; readonly kind: string }[]
  readonly keepOut?: readonly { readonly from: Length; readonly to: Length }[]
}

type SentElement =
  | { readonly kind: 'tangent'; readonly length: Length }
  | {
      readonly kind: 'arc'
      readonly radius?: Length
      readonly diameter?: Length
      readonly angle?: number
      readonly length?: Length
      readonly turn: 'left' | 'right'
    }

interface SentStick {
  readonly length: Length
  readonly price?: string | number
  readonly packSize?: number
  readonly onHand?: number
  readonly buyable?: boolean
}

export interface AnsweredEstimate {
  readonly tracks: readonly { readonly name: string; readonly joints: number; readonly tieSpacingMm: number }[]
  readonly joints: readonly {
    readonly track: string
    readonly rail: 'left' | 'right'
    readonly atMm: number
    readonly stationMm: number
    readonly kind: string
  }[]
  readonly cutting: {
    readonly sticks: readonly Stick<Piece & { readonly track: string; readonly rail: 'left' | 'right' }>[]
    readonly cost: string | null
    readonly costLowerBound: string | null
    readonly provenOptimal: boolean
    readonly sticksLowerBound: number
  }
  readonly findings: readonly { readonly rule: string; readonly track: string | null }[]
}

interface Piece {
  readonly fromMm: number
  readonly lengthMm: number
}

interface Stick<P extends Piece = Piece> {
  readonly lengthMm: number
  readonly fromStock: boolean
  readonly kerfMm: number
  readonly trimMm?: number
  readonly offcutMm: number
  readonly pieces: readonly P[]
}

/** Lengths are added up in other orders than the program does. */
const SUM_SLACK_MM = 1e-5
/** Places are carried from a rail to the centre line and back. */
const PLACE_SLACK_MM = 2e-3

/** What is wrong with the cutting of an estimate: every rule that is broken without a finding that says so. */
export function breachesOfEstimate(plan: SentPlan, answer: AnsweredEstimate): Breach[] {
  const { sticks = [{ length: '5 ft' }], joiners = {}, kerf = 1, minimumPiece = 150 } = plan.supplies ?? {}
  const shelves = sticks.map(shelfOf)
  const rules = { kerfMm: mm(kerf), minimumPieceMm: mm(minimumPiece) }
  const found: Breach[] = [...breachesOfSticks(answer.cutting.sticks, shelves, rules)]
  let joinersNeeded = 0
  for (const track of plan.tracks) {
    const owned = new Set(
      answer.findings.filter((finding) => finding.track === track.name).map(({ rule }) => OWNED_UP[rule]),
    )
    const seen = breachesOfTrack(track, plan, answer, rules)
    joinersNeeded += seen.joiners
    found.push(...seen.breaches.filter(({ rule }) => !owned.has(rule)))
  }
  const { cost, costLowerBound, provenOptimal, sticksLowerBound } = answer.cutting
  if (cost !== null && costLowerBound !== null) {
    const money =
      moneyFor(answer.cutting.sticks, shelves) +
      packs(joinersNeeded, joiners.onHand ?? 0, joiners.packSize ?? 1) * cents(joiners.pricePerPack ?? 0)
    if (money !== cents(cost)) found.push({ rule: 'cost', what: `${cost} said, ${money} cents worked out` })
    found.push(...breachesOfBound(cents(cost), cents(costLowerBound), provenOptimal))
  }
  if (answer.cutting.sticks.length < sticksLowerBound)
    found.push({ rule: 'bound', what: `${answer.cutting.sticks.length} sticks, at least ${sticksLowerBound} said` })
  return found
}

/** A cut list as it is asked for and answered: runs that may be divided anywhere. */
export interface SentCutList {
  readonly runs: readonly { readonly length: Length }[]
  readonly sticks: readonly SentStick[]
  readonly kerf: Length
  readonly minimumPiece: Length
  readonly joinerPrice: string | number
}

export interface AnsweredCutList {
  readonly sticks: readonly Stick<Piece & { readonly run: number }>[]
  readonly cost: string
  readonly costLowerBound: string
  readonly provenOptimal: boolean
  readonly joints: number
}

export function breachesOfCutList(asked: SentCutList, answer: AnsweredCutList): Breach[] {
  const shelves = asked.sticks.map(shelfOf)
  const rules = { kerfMm: mm(asked.kerf), minimumPieceMm: mm(asked.minimumPiece) }
  const found: Breach[] = [...breachesOfSticks(answer.sticks, shelves, rules)]
  let joints = 0
  for (const [run, { length }] of asked.runs.entries()) {
    const pieces = answer.sticks.flatMap((stick) => stick.pieces.filter((piece) => piece.run === run))
    found.push(...breachesOfCover(`run ${run}`, pieces, mm(length)))
    joints += pieces.length - 1
    if (pieces.length > 1 && pieces.some((piece) => piece.lengthMm < rules.minimumPieceMm - SUM_SLACK_MM))
      found.push({ rule: 'minimum-piece', what: `run ${run}` })
  }
  if (joints !== answer.joints)
    found.push({ rule: 'joints-counted', what: `${answer.joints} said, ${joints} there are` })
  const money = moneyFor(answer.sticks, shelves) + joints * cents(asked.joinerPrice)
  if (money !== cents(answer.cost)) found.push({ rule: 'cost', what: `${answer.cost} said, ${money} cents worked out` })
  return [...found, ...breachesOfBound(cents(answer.cost), cents(answer.costLowerBound), answer.provenOptimal)]
}

interface Shelf {
  readonly lengthMm: number
  readonly packCents: number
  readonly packSize: number
  readonly onHand: number
  readonly buyable: boolean
}

function shelfOf({ length, price = 0, packSize = 1, onHand = 0, buyable = true }: SentStick): Shelf {
  return { lengthMm: mm(length), packCents: cents(price), packSize, onHand, buyable }
}

function breachesOfSticks(
  sticks: readonly Stick[],
  shelves: readonly Shelf[],
  { kerfMm }: { readonly kerfMm: number },
): Breach[] {
  const found: Breach[] = []
  for (const [n, stick] of sticks.entries()) {
    const what = `stick ${n}`
    const { trimMm = 0, offcutMm, pieces } = stick
    const piecesMm = sum(pieces.map(({ lengthMm }) => lengthMm))
    if (!same(piecesMm + trimMm + stick.kerfMm + offcutMm, stick.lengthMm) || offcutMm < 0 || trimMm < 0)
      found.push({ rule: 'stick-adds-up', what })
    const restMm = stick.lengthMm - piecesMm - trimMm - kerfMm * (pieces.length - 1)
    const dueMm = kerfMm * (pieces.length - 1) + Math.min(kerfMm, Math.max(0, restMm))
    if (!same(stick.kerfMm, dueMm)) found.push({ rule: 'kerf', what: `${what}: ${stick.kerfMm}, due ${dueMm}` })
    if (pieces.length === 0) found.push({ rule: 'rail-covered-once', what: `${what} is cut into nothing` })
    if (!shelves.some(({ lengthMm }) => lengthMm === stick.lengthMm))
      found.push({ rule: 'stock', what: `${what}: no such length` })
  }
  for (const { lengthMm, onHand, buyable } of shelves) {
    const used = sticks.filter((stick) => stick.lengthMm === lengthMm)
    const fromStock = used.filter((stick) => stick.fromStock).length
    if (fromStock !== Math.min(used.length, onHand) || (!buyable && used.length > onHand))
      found.push({ rule: 'stock', what: `${used.length} of ${lengthMm}, ${fromStock} from ${onHand}` })
  }
  return found
}

function moneyFor(sticks: readonly Stick[], shelves: readonly Shelf[]): number {
  return sum(
    shelves.map(({ lengthMm, packCents, packSize, onHand }) => {
      const used = sticks.filter((stick) => stick.lengthMm === lengthMm).length
      return packs(used, onHand, packSize) * packCents
    }),
  )
}

function breachesOfBound(cost: number, leastCost: number, proven: boolean): Breach[] {
  if (leastCost > cost) return [{ rule: 'bound', what: `${leastCost} at least, ${cost} said` }]
  if (proven && leastCost !== cost) return [{ rule: 'bound', what: `proven at ${cost}, yet ${leastCost} may do` }]
  return []
}

function breachesOfCover(what: string, pieces: readonly Piece[], lengthMm: number): Breach[] {
  let reachedMm = 0
  for (const piece of pieces.toSorted((a, b) => a.fromMm - b.fromMm)) {
    if (!same(piece.fromMm, reachedMm) || !(piece.lengthMm > 0))
      return [{ rule: 'rail-covered-once', what: `${what} at ${piece.fromMm}, reached ${reachedMm}` }]
    reachedMm = piece.fromMm + piece.lengthMm
  }
  return same(reachedMm, lengthMm) ? [] : [{ rule: 'rail-covered-once', what: `${what} ends at ${reachedMm}` }]
}

function breachesOfTrack(
  track: SentTrack,
  plan: SentPlan,
  answer: AnsweredEstimate,
  { minimumPieceMm }: { readonly minimumPieceMm: number },
): { breaches: Breach[]; joiners: number } {
  const breaches: Breach[] = []
  const add = (rule: CuttingRule, what: string) => breaches.push({ rule, what: `${track.name}: ${what}` })
  const told = answer.tracks.find(({ name }) => name === track.name)!
  const breaks = (track.breaks ?? []).map(({ at, kind }) => ({ stationMm: mm(at), kind }))
  const keepOut = (track.keepOut ?? []).map(({ from, to }) => ({ fromMm: mm(from), toMm: mm(to) }))
  const { stagger, arrangement, betweenTies = false } = plan.joints ?? {}
  const half = (mm(plan.gauge ?? 45) + mm(plan.rail.section.headWidth)) / 2
  const plain: Record<'left' | 'right', number[]> = { left: [], right: [] }
  const listed = answer.joints.filter((joint) => joint.track === track.name)
  let joints = 0
  let joiners = 0
  for (const side of ['left', 'right'] as const) {
    const rail = railOf(track, side === 'left' ? half : -half)
    const pieces = answer.cutting.sticks
      .flatMap((stick) => stick.pieces)
      .filter((piece) => piece.track === track.name && piece.rail === side)
      .toSorted((a, b) => a.fromMm - b.fromMm)
    breaches.push(...breachesOfCover(`${track.name} ${side}`, pieces, rail.lengthMm))
    for (const piece of pieces) {
      if (piece.lengthMm < minimumPieceMm - SUM_SLACK_MM) add('minimum-piece', `${side} ${piece.lengthMm}`)
    }
    const broken = breaks.filter(({ stationMm }) => stationMm > 0 && stationMm < rail.stationAt(rail.lengthMm))
    const stations = pieces.slice(1).map(({ fromMm }) => rail.stationAt(fromMm))
    for (const { stationMm } of broken)
      if (!stations.some((station) => near(station, stationMm))) add('joint-at-break', `${side} ${stationMm}`)
    plain[side] = stations.filter((station) => !broken.some(({ stationMm }) => near(station, stationMm)))
    const bridgeEnds = broken.filter(({ kind }) => kind === 'bridge-end').length
    joints += stations.length + (track.closed ? 1 : 0)
    joiners += plain[side].length + bridgeEnds + (track.closed ? 1 : 0)
    for (const station of stations)
      if (!listed.some((joint) => joint.rail === side && near(joint.stationMm, station)))
        add('joints-counted', `${side} ${station} is not listed`)
    for (const station of plain[side]) {
      if (keepOut.some(({ fromMm, toMm }) => station > fromMm + PLACE_SLACK_MM && station < toMm - PLACE_SLACK_MM))
        add('keep-out', `${side} ${station}`)
      const midways = station / told.tieSpacingMm - 0.5
      if (betweenTies && !near(Math.round(midways) * told.tieSpacingMm, midways * told.tieSpacingMm))
        add('between-ties', `${side} ${station}`)
    }
  }
  if (joints !== listed.length || joints !== told.joints)
    add('joints-counted', `${told.joints} said, ${listed.length} listed, ${joints} there are`)
  for (const [here, there] of [
    [plain.left, plain.right],
    [plain.right, plain.left],
  ] as const)
    for (const station of here) {
      const nearestMm = Math.min(...there.map((other) => Math.abs(other - station)))
      if (stagger !== undefined && nearestMm < mm(stagger) - PLACE_SLACK_MM) add('stagger', `${station}: ${nearestMm}`)
      if (arrangement === 'square' && nearestMm > PLACE_SLACK_MM) add('square', `${station}`)
    }
  return { breaches, joiners }
}

/** A rail of level straights and arcs, `offset` to the left of the centre line: its length, and stations from places. */
function railOf(track: SentTrack, offset: number) {
  const parts = track.elements.map((element) => {
    if (element.kind === 'tangent') return { stationMm: mm(element.length), perStation: 1 }
    const radiusMm = element.radius === undefined ? mm(element.diameter!) / 2 : mm(element.radius)
    const stationMm = element.length === undefined ? radiusMm * ((element.angle! * Math.PI) / 180) : mm(element.length)
    return { stationMm, perStation: 1 - (element.turn === 'left' ? offset : -offset) / radiusMm }
  })
  const stationAt = (placeMm: number) => {
    let leftMm = placeMm
    let station = 0
    for (const { stationMm, perStation } of parts) {
      if (leftMm <= stationMm * perStation) return station + leftMm / perStation
      leftMm -= stationMm * perStation
      station += stationMm
    }
    return station
  }
  return { lengthMm: sum(parts.map(({ stationMm, perStation }) => stationMm * perStation)), stationAt }
}

function mm(length: Length): number {
  if (typeof length === 'number') return length
  const read = parseLength(length)
  if (!read.ok) throw new Error(read.reason)
  return read.mm
}

function cents(money: string | number): number {
  return Math.round(Number(money) * 100)
}

function packs(needed: number, onHand: number, packSize: number): number {
  return Math.ceil(Math.max(0, needed - onHand) / packSize)
}

function same(a: number, b: number): boolean {
  return Math.abs(a - b) <= SUM_SLACK_MM
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= PLACE_SLACK_MM
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}
