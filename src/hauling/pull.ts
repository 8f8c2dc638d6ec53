import { firstIndexWhere } from '../measure/search.ts'
import type { Hill } from './hill.ts'

/** Cars of one kind, one behind the other, or the engine. */
export interface Block {
  readonly lengthMm: number
  readonly weightN: number
  /** Rolling resistance, as a share of the weight. */
  readonly rolling: number
  /** Curve resistance: see `curveResistanceMm`. */
  readonly curveMm: number
}

/** What a train asks for where it stands, shares of its weight as mean over its cars. */
export interface Pull {
  /** Station of its front end. */
  readonly frontMm: number
  readonly pullN: number
  readonly grade: number
  readonly curve: number
}

/**
 * What a train asks for with its front end at a station:
 *
 * P = Σ W·(r + (z(a) − z(b))/l + c·(ψ(a) − ψ(b))/l)
 *
 * for its blocks of cars from the front: W weight, N; r rolling resistance; c curve resistance, mm; l length, mm, from b to
 * a; z height, mm, and ψ the angle turned, rad, along the track. So the grade and the curve of a block are the mean of what
 * is under it, exactly. Grades are rise over level run, which asks for half a percent too much at 10 %.
 * Checked by hand in tests/hauling/pull.test.ts.
 */
export function pullAt(hill: Hill, train: readonly Block[], frontMm: number): Pull {
  let [weightN, rollingN, gradeN, curveN, aheadMm] = [0, 0, 0, 0, frontMm]
  let [height, turned] = [hill.height.at(frontMm), hill.turned.at(frontMm)]
  for (const block of train) {
    const behindMm = aheadMm - block.lengthMm
    const [heightBehind, turnedBehind] = [hill.height.at(behindMm), hill.turned.at(behindMm)]
    weightN += block.weightN
    rollingN += block.weightN * block.rolling
    gradeN += (block.weightN * (height - heightBehind)) / block.lengthMm
    curveN += (block.weightN * block.curveMm * (turned - turnedBehind)) / block.lengthMm
    aheadMm = behindMm
    height = heightBehind
    turned = turnedBehind
  }
  return { frontMm, pullN: rollingN + gradeN + curveN, grade: gradeN / weightN, curve: curveN / weightN }
}

/** More than a train can ask for anywhere: as if all of it were on the steepest grade and in the sharpest curve at once. */
export function mostPullN({ height, turned }: Hill, train: readonly Block[]): number {
  return train.reduce(
    (sum, { weightN, rolling, curveMm }) =>
      sum + weightN * (rolling + height.greatestRate + curveMm * turned.greatestRate),
    0,
  )
}

/** What a train asks for at most and at least, with its front end anywhere on the track. */
export interface PullExtremes {
  readonly most: Pull
  readonly least: Pull
}

/**
 * The hardest and the easiest place of a train. The pull is a parabola between the stations at which an end of a block
 * passes a station where grade or curvature, or their rate, changes; these parabolas are followed from one to the next,
 * and the two places found are worked out again by themselves. O(n·b²) for n such stations of the track and b blocks.
 */
export function pullExtremes(hill: Hill, train: readonly Block[]): PullExtremes {
  const lengthMm = hill.lengthMm - hill.frontFromMm
  const ends = endsOf(train)
  const startMm = hill.closed ? quietStation(hill, ends) : hill.frontFromMm
  const queues = ends.flatMap((end) => queuesOf(hill, end, startMm))
  let { slope, bend } = startOf(hill, ends, startMm)
  let { pullN } = pullAt(hill, train, startMm)
  let [alongMm, most, mostMm, least, leastMm] = [0, pullN, 0, pullN, 0]
  const seen = (mm: number, newtons: number) => {
    if (newtons > most) [most, mostMm] = [newtons, mm]
    if (newtons < least) [least, leastMm] = [newtons, mm]
  }
  for (;;) {
    const next = earliest(queues)
    const toMm = Math.min(next?.nextMm ?? lengthMm, lengthMm)
    if (toMm > alongMm) {
      const stepMm = toMm - alongMm
      const turnMm = bend === 0 ? -1 : -slope / bend
      if (turnMm > 0 && turnMm < stepMm) seen(alongMm + turnMm, pullN + (slope * turnMm) / 2)
      pullN += slope * stepMm + (bend * stepMm ** 2) / 2
      slope += bend * stepMm
      alongMm = toMm
      seen(alongMm, pullN)
    }
    if (!next || next.nextMm >= lengthMm) break
    slope += next.share * next.corners.rate[next.index]!
    bend += next.share * next.corners.bend[next.index]!
    advance(next)
  }
  const place = (mm: number) => pullAt(hill, train, hill.closed ? within(startMm + mm, lengthMm) : startMm + mm)
  return { most: place(mostMm), least: place(leastMm) }
}

/** The corners that one end of a block still has to pass. */
interface Queue {
  readonly corners: Hill['height']['corners']
  /** Force of a unit of the quantity there. */
  readonly share: number
  /** Where the end is when the front is at the start. */
  readonly fromMm: number
  readonly isClosed: boolean
  readonly lengthMm: number
  /** How far it has been round a closed track. */
  roundMm: number
  index: number
  /** How far the front has come when the end passes the next corner. */
  nextMm: number
}

/** The corners that an end of a block passes, of height and of the angle turned, in order from where it is at the start. */
function queuesOf(hill: Hill, { offsetMm, ofHeight, ofTurned }: BlockEnd, startMm: number): Queue[] {
  const { closed, lengthMm } = hill
  const fromMm = closed ? within(startMm - offsetMm, lengthMm) : startMm - offsetMm
  return [
    { corners: hill.height.corners, share: ofHeight },
    { corners: hill.turned.corners, share: ofTurned },
  ].flatMap(({ corners, share }): Queue[] => {
    if (share === 0) return []
    const index = firstIndexWhere(corners.atMm.length, (at) => corners.atMm[at]! > fromMm) - 1
    const queue = { corners, share, fromMm, isClosed: closed, lengthMm, roundMm: 0, index, nextMm: 0 }
    advance(queue)
    return [queue]
  })
}

/** To the next corner; of a closed track from the last to the first, once more round. */
function advance(queue: Queue): void {
  const { atMm } = queue.corners
  queue.index++
  if (queue.index === atMm.length && queue.isClosed) {
    queue.index = 0
    queue.roundMm += queue.lengthMm
  }
  const next = atMm[queue.index]
  queue.nextMm = next === undefined ? Number.POSITIVE_INFINITY : next - queue.fromMm + queue.roundMm
}

function earliest(queues: readonly Queue[]): Queue | null {
  let first: Queue | null = null
  for (const queue of queues) if (first === null || queue.nextMm < first.nextMm) first = queue
  return first
}

/** The same place of a closed track, from its start. */
function within(mm: number, lengthMm: number): number {
  return mm - Math.floor(mm / lengthMm) * lengthMm
}

const MOST_TRIED = 100

/**
 * A station of a closed track at which no end of a block is near a corner, so that rounding cannot put one on the wrong side
 * of it: with n corners under b ends more than half of all stations are L/(4nb) away from them, and steps of the golden
 * section come to one of those soon.
 */
function quietStation({ height, turned, lengthMm }: Hill, ends: readonly BlockEnd[]): number {
  const number = (height.corners.atMm.length + turned.corners.atMm.length) * ends.length
  let [bestMm, farthestMm] = [0, -1]
  for (let tried = 1; tried <= MOST_TRIED; tried++) {
    const stationMm = within(tried * GOLDEN, 1) * lengthMm
    const awayMm = Math.min(
      ...ends.flatMap(({ offsetMm }) =>
        [height, turned].map(({ corners }) => awayFrom(corners.atMm, within(stationMm - offsetMm, lengthMm), lengthMm)),
      ),
    )
    if (awayMm > farthestMm) [bestMm, farthestMm] = [stationMm, awayMm]
    if (awayMm > lengthMm / (4 * number)) break
  }
  return bestMm
}

const GOLDEN = (Math.sqrt(5) - 1) / 2

/** How far a station of a closed track is from the nearest of these, the first of which is its start. */
function awayFrom(stations: Float64Array, mm: number, lengthMm: number): number {
  const after = firstIndexWhere(stations.length, (index) => stations[index]! > mm)
  return Math.min(mm - stations[after - 1]!, (stations[after] ?? lengthMm) - mm)
}

/** Where a block ends and the next begins: how far behind the front, and the force of a unit of height and of angle. */
interface BlockEnd {
  readonly offsetMm: number
  readonly ofHeight: number
  readonly ofTurned: number
}

function endsOf(train: readonly Block[]): BlockEnd[] {
  const ends: BlockEnd[] = []
  let [offsetMm, before] = [0, { height: 0, turned: 0 }]
  for (const { lengthMm, weightN, curveMm } of train) {
    const [height, turned] = [weightN / lengthMm, (weightN * curveMm) / lengthMm]
    ends.push({ offsetMm, ofHeight: height - before.height, ofTurned: turned - before.turned })
    offsetMm += lengthMm
    before = { height, turned }
  }
  ends.push({ offsetMm, ofHeight: -before.height, ofTurned: -before.turned })
  return ends
}

/** Slope of the pull, N per mm, and how it changes from a station on. */
function startOf(
  { height, turned }: Hill,
  ends: readonly BlockEnd[],
  startMm: number,
): { slope: number; bend: number } {
  let [slope, bend] = [0, 0]
  for (const { offsetMm, ofHeight, ofTurned } of ends) {
    const [rises, turns] = [height.rateAt(startMm - offsetMm), turned.rateAt(startMm - offsetMm)]
    slope += ofHeight * rises.rate + ofTurned * turns.rate
    bend += ofHeight * rises.bend + ofTurned * turns.bend
  }
  return { slope, bend }
}
