/*
 * The best of small cut plans by going through everything there is, twice over and each time in another way. Nothing of
 * the program is used.
 */

export interface SmallProblem {
  readonly runsMm: readonly number[]
  /** Each length as often as wanted, the first `onHand` of them free. */
  readonly sticks: readonly SmallStick[]
  readonly joinerCents: number
  readonly kerfMm: number
  readonly minimumPieceMm: number
}

export interface SmallStick {
  readonly lengthMm: number
  readonly cents: number
  readonly onHand: number
}

/** What a plan is judged by, in this order. The shortest piece counts whole runs as well. */
export interface Worth {
  readonly cents: number
  readonly joints: number
  readonly shortestMm: number
}

const SLACK_MM = 1e-6

/** Below 0 where `a` is the better; lengths are compared within `withinMm`. */
export function compareWorth(a: Worth, b: Worth, withinMm: number): number {
  if (a.cents !== b.cents) return a.cents - b.cents
  if (a.joints !== b.joints) return a.joints - b.joints
  return Math.abs(a.shortestMm - b.shortestMm) <= withinMm ? 0 : b.shortestMm - a.shortestMm
}

/**
 * Joints anywhere. A plan says which sticks each run has pieces of (two pieces of one stick could be one). For each such
 * choice the pieces can be made t long or longer just when every set of runs is no longer than the sticks it has pieces of
 * can give it (the theorem of Hall and Gale for flows): for each set W of runs, with the pieces of other runs at their
 * shortest,
 *
 *   Σ over W (L − t·pieces) ≤ Σ over the sticks of W (S − kerf·(pieces − 1) − t·pieces),
 *
 * and no run and no stick is too short for its own pieces, which gives the largest t. A run of one piece is as long as it is.
 */
export function bestAnywhere(problem: SmallProblem): Worth | null {
  const { runsMm, minimumPieceMm, joinerCents } = problem
  let best: Worth | null = null
  const consider = (found: Worth) => {
    if (!best || compareWorth(found, best, 0) < 0) best = found
  }
  for (const { sticksMm, cents } of stickSets(problem)) {
    const most = (1 << sticksMm.length) - 1
    const chosen: number[] = []
    const choose = (joints: number) => {
      const money = cents + joints * joinerCents
      if (best && (money > best.cents || (money === best.cents && joints > best.joints))) return
      if (chosen.length < runsMm.length) {
        for (let mask = 1; mask <= most; mask++) {
          chosen.push(mask)
          choose(joints + bits(mask) - 1)
          chosen.pop()
        }
        return
      }
      if (chosen.reduce((all, mask) => all | mask, 0) !== most) return
      const longestMm = longestShortest(problem, sticksMm, chosen)
      if (longestMm < minimumPieceMm - SLACK_MM) return
      const whole = runsMm.filter((_, run) => bits(chosen[run]!) === 1)
      consider({ cents: money, joints, shortestMm: Math.min(longestMm, ...whole) })
    }
    choose(0)
  }
  return best
}

/** The longest that every piece of a divided run can be at least; −1 where the sticks do not hold the runs. */
function longestShortest({ runsMm, kerfMm }: SmallProblem, sticksMm: readonly number[], chosen: readonly number[]) {
  const divided = chosen.map((mask) => (bits(mask) > 1 ? 1 : 0))
  const roomMm = sticksMm.map((mm, s) => mm - kerfMm * (chosen.filter((mask) => mask & (1 << s)).length - 1))
  const shares = sticksMm.map((_, s) =>
    chosen.reduce((sum, mask, run) => sum + (mask & (1 << s) ? divided[run]! : 0), 0),
  )
  let most = Number.POSITIVE_INFINITY
  for (const [run, mask] of chosen.entries()) if (divided[run]) most = Math.min(most, runsMm[run]! / bits(mask))
  for (let s = 0; s < sticksMm.length; s++) {
    const wholeMm = chosen.reduce((sum, mask, run) => sum + (mask & (1 << s) && !divided[run] ? runsMm[run]! : 0), 0)
    if (wholeMm > roomMm[s]! + SLACK_MM) return -1
    if (shares[s]! > 0) most = Math.min(most, (roomMm[s]! - wholeMm) / shares[s]!)
  }
  for (let set = 1; set < 1 << runsMm.length; set++) {
    let neededMm = 0
    let pieces = 0
    let sticks = 0
    for (let run = 0; run < runsMm.length; run++)
      if (set & (1 << run)) {
        neededMm += runsMm[run]!
        pieces += divided[run]! * bits(chosen[run]!)
        sticks |= chosen[run]!
      }
    let haveMm = 0
    let shared = 0
    for (let s = 0; s < sticksMm.length; s++)
      if (sticks & (1 << s)) {
        haveMm += roomMm[s]!
        shared += shares[s]!
        // What other undivided runs take of these sticks is fixed.
        for (let run = 0; run < runsMm.length; run++)
          if (!(set & (1 << run)) && !divided[run] && chosen[run]! & (1 << s)) haveMm -= runsMm[run]!
      }
    if (shared === pieces) {
      if (neededMm > haveMm + SLACK_MM) return -1
    } else most = Math.min(most, (haveMm - neededMm) / (shared - pieces))
  }
  return most
}

/**
 * Every set of sticks that is worth looking at, cheapest first: as many as hold all the runs, or as each run takes by
 * itself, since pieces that must not be too short may keep runs from sharing sticks; and one more.
 */
function stickSets({ runsMm, sticks, kerfMm }: SmallProblem): { sticksMm: number[]; cents: number }[] {
  const sets: { sticksMm: number[]; cents: number }[] = []
  const wantedMm = runsMm.reduce((sum, mm) => sum + mm + kerfMm, 0)
  const shortestMm = Math.min(...sticks.map(({ lengthMm }) => lengthMm))
  const byThemselves = runsMm.reduce((sum, mm) => sum + Math.ceil(mm / shortestMm), 0)
  const most = Math.max(Math.ceil(wantedMm / shortestMm), byThemselves) + 1
  const choose = (t: number, sticksMm: number[], cents: number) => {
    if (t === sticks.length) {
      if (sticksMm.length > 0) sets.push({ sticksMm, cents })
      return
    }
    const { lengthMm, cents: each, onHand } = sticks[t]!
    for (let count = 0; sticksMm.length + count <= most; count++)
      choose(
        t + 1,
        [...sticksMm, ...new Array<number>(count).fill(lengthMm)],
        cents + each * Math.max(0, count - onHand),
      )
  }
  choose(0, [], 0)
  return sets.sort((a, b) => a.cents - b.cents || a.sticksMm.length - b.sticksMm.length)
}

/** Where joints may lie on a run, and how far its joints keep from those of another. */
export interface SmallPlaces {
  readonly placesMm: readonly (readonly number[])[]
  /** Runs that lie beside each other, station by station. */
  readonly apart: { readonly byMm: number; readonly pairs: readonly (readonly [number, number])[] } | null
  /** What a piece is sawn longer than it is; nothing when left out. */
  readonly trimMm?: (run: number, fromMm: number, toMm: number) => number
}

/** Joints at any of the places given: every subset of them, and every way to cut the pieces from sticks. */
export function bestAtPlaces(problem: SmallProblem, { placesMm, apart, trimMm }: SmallPlaces): Worth | null {
  const { runsMm, sticks, joinerCents, kerfMm, minimumPieceMm } = problem
  const longestMm = Math.max(...sticks.map(({ lengthMm }) => lengthMm))
  const counts = sticks.map(() => 0)
  const roomsMm: number[] = []
  const jointsOf: number[][] = runsMm.map(() => [])
  let best: Worth | null = null

  const tooNear = (run: number, mm: number) =>
    apart?.pairs.some(([a, b]) => {
      const other = a === run ? b : b === run ? a : -1
      return other >= 0 && jointsOf[other]!.some((there) => Math.abs(there - mm) < apart.byMm - SLACK_MM)
    }) ?? false
  const lay = (run: number, fromMm: number, cents: number, joints: number, shortestMm: number) => {
    const money = cents + joints * joinerCents
    if (best && compareWorth({ cents: money, joints, shortestMm }, best, 0) >= 0) return
    if (run === runsMm.length) {
      best = { cents: money, joints, shortestMm }
      return
    }
    const endMm = runsMm[run]!
    for (const toMm of [endMm, ...placesMm[run]!.toReversed()]) {
      const lengthMm = toMm - fromMm
      const sawnMm = lengthMm + (trimMm?.(run, fromMm, toMm) ?? 0)
      if (sawnMm > longestMm + SLACK_MM || lengthMm <= 0) continue
      const whole = fromMm === 0 && toMm === endMm
      if (!whole && lengthMm < minimumPieceMm - SLACK_MM) continue
      if (toMm !== endMm && tooNear(run, toMm)) continue
      const next = (more: number) => {
        const shorter = Math.min(shortestMm, lengthMm)
        if (toMm === endMm) return lay(run + 1, 0, cents + more, joints, shorter)
        jointsOf[run]!.push(toMm)
        lay(run, toMm, cents + more, joints + 1, shorter)
        jointsOf[run]!.pop()
      }
      const tried = new Set<number>()
      for (let s = 0; s < roomsMm.length; s++) {
        const had = roomsMm[s]!
        if (sawnMm > had + SLACK_MM || tried.has(had)) continue
        tried.add(had)
        roomsMm[s] = had - sawnMm - kerfMm
        next(0)
        roomsMm[s] = had
      }
      for (const [t, stick] of sticks.entries()) {
        if (sawnMm > stick.lengthMm + SLACK_MM) continue
        counts[t]!++
        roomsMm.push(stick.lengthMm - sawnMm - kerfMm)
        next(counts[t]! > stick.onHand ? stick.cents : 0)
        roomsMm.pop()
        counts[t]!--
      }
    }
  }
  lay(0, 0, 0, 0, Number.POSITIVE_INFINITY)
  return best
}

function bits(mask: number): number {
  let count = 0
  for (let rest = mask; rest > 0; rest >>= 1) count += rest & 1
  return count
}
