import type { Hill, Running } from './hill.ts'

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
 * and the two places found are worked out again by themselves. O(n log n) for n stations times blocks.
 */
export function pullExtremes(hill: Hill, train: readonly Block[]): PullExtremes {
  const { startMm, changes } = changesFrom(hill, train)
  const endMm = startMm + hill.lengthMm
  let atMm = startMm
  let { pullN } = pullAt(hill, train, startMm)
  let { slope, bend } = startOf(hill, train, startMm)
  let [most, mostMm, least, leastMm] = [pullN, startMm, pullN, startMm]
  const seen = (mm: number, newtons: number) => {
    if (newtons > most) [most, mostMm] = [newtons, mm]
    if (newtons < least) [least, leastMm] = [newtons, mm]
  }
  const follow = (toMm: number) => {
    const lengthMm = toMm - atMm
    const turnMm = bend === 0 ? -1 : -slope / bend
    if (turnMm > 0 && turnMm < lengthMm) seen(atMm + turnMm, pullN + (slope * turnMm) / 2)
    pullN += slope * lengthMm + (bend * lengthMm ** 2) / 2
    slope += bend * lengthMm
    atMm = toMm
    seen(atMm, pullN)
  }
  for (const change of changes) {
    if (change.atMm > atMm) follow(change.atMm)
    slope += change.slope
    bend += change.bend
  }
  if (endMm > atMm) follow(endMm)
  const place = (mm: number) => pullAt(hill, train, mm > hill.lengthMm ? mm - hill.lengthMm : mm)
  return { most: place(mostMm), least: place(leastMm) }
}

/** How the slope of the pull, N per mm, and its bend, N per mm², change as the front end passes a station. */
interface Change {
  readonly atMm: number
  readonly slope: number
  readonly bend: number
}

/**
 * Where grade or curvature changes under an end of a block, in order from a station on: of an open track its start, of a
 * closed one the middle of the longest stretch without a change, where rounding cannot put one on the wrong side of it.
 */
function changesFrom(hill: Hill, train: readonly Block[]): { startMm: number; changes: Change[] } {
  const { closed, lengthMm } = hill
  const changes = changesOf(hill, train).sort((a, b) => a.atMm - b.atMm)
  if (!closed) return { startMm: 0, changes: changes.filter(({ atMm }) => atMm > 0 && atMm < lengthMm) }
  let [startMm, longestMm] = [0, 0]
  for (const [index, { atMm }] of changes.entries()) {
    const gapMm = (changes[index + 1]?.atMm ?? changes[0]!.atMm + lengthMm) - atMm
    if (gapMm > longestMm) [startMm, longestMm] = [atMm + gapMm / 2, gapMm]
  }
  startMm = within(startMm, lengthMm)
  const ahead = changes.filter(({ atMm }) => atMm >= startMm)
  const round = changes.filter(({ atMm }) => atMm < startMm).map((each) => ({ ...each, atMm: each.atMm + lengthMm }))
  return { startMm, changes: [...ahead, ...round] }
}

function changesOf(hill: Hill, train: readonly Block[]): Change[] {
  return endsOf(train).flatMap(({ offsetMm, ofHeight, ofTurned }) =>
    [
      { pieces: hill.height.pieces, share: ofHeight },
      { pieces: hill.turned.pieces, share: ofTurned },
    ].flatMap(({ pieces, share }) =>
      share === 0
        ? []
        : cornersOf(pieces, hill.closed).map(({ atMm, rate, bend }): Change => {
            const frontMm = hill.closed ? within(atMm + offsetMm, hill.lengthMm) : atMm + offsetMm
            return { atMm: frontMm, slope: share * rate, bend: share * bend }
          }),
    ),
  )
}

/** The same place of a closed track, from its start. */
function within(mm: number, lengthMm: number): number {
  return mm - Math.floor(mm / lengthMm) * lengthMm
}

/** The ends of the blocks: how far behind the front, and the force of a unit of height and of angle there. */
function endsOf(train: readonly Block[]): { offsetMm: number; ofHeight: number; ofTurned: number }[] {
  const ends: { offsetMm: number; ofHeight: number; ofTurned: number }[] = []
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

/** Where a rate, or the rate of the rate, changes. */
function cornersOf(pieces: readonly Running[], closed: boolean): { atMm: number; rate: number; bend: number }[] {
  const corners = pieces.slice(1).map((piece, index) => {
    const before = pieces[index]!
    return { atMm: piece.fromMm, rate: piece.rate - before.endRate, bend: bendOf(piece) - bendOf(before) }
  })
  const [first, last] = [pieces[0]!, pieces.at(-1)!]
  // Round a closed track the end leads to the start; beyond the ends of an open one the rate stays what it is there.
  return closed
    ? [{ atMm: 0, rate: first.rate - last.endRate, bend: bendOf(first) - bendOf(last) }, ...corners]
    : [{ atMm: 0, rate: 0, bend: bendOf(first) }, ...corners, { atMm: last.toMm, rate: 0, bend: -bendOf(last) }]
}

/** Slope and bend of the pull from a station on, at which nothing changes but what changes at an open track's start. */
function startOf(hill: Hill, train: readonly Block[], startMm: number): { slope: number; bend: number } {
  let [slope, bend] = [0, 0]
  for (const { offsetMm, ofHeight, ofTurned } of endsOf(train)) {
    const height = rateAt(hill.height.pieces, startMm - offsetMm, hill)
    const turned = rateAt(hill.turned.pieces, startMm - offsetMm, hill)
    slope += ofHeight * height.rate + ofTurned * turned.rate
    bend += ofHeight * height.bend + ofTurned * turned.bend
  }
  return { slope, bend }
}

/** The rate at a station, and how it changes from there on. */
function rateAt(pieces: readonly Running[], mm: number, { closed, lengthMm }: Hill): { rate: number; bend: number } {
  if (!closed && mm < 0) return { rate: pieces[0]!.rate, bend: 0 }
  const onMm = closed ? within(mm, lengthMm) : mm
  const piece = pieces.findLast(({ fromMm }) => fromMm <= onMm)!
  const bend = bendOf(piece)
  return { rate: piece.rate + bend * (onMm - piece.fromMm), bend }
}

function bendOf({ fromMm, toMm, rate, endRate }: Running): number {
  return rate === endRate ? 0 : (endRate - rate) / (toMm - fromMm)
}
