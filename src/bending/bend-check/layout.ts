/**
 * Which stations lie where in a lined curve: straight, run, body, run, body, …, run, straight. With b bodies there are
 * b + 1 runs; run j holds the stations `cuts[2j]` up to, not including, `cuts[2j + 1]`, and body j (counted from 1)
 * those from `cuts[2j − 1]` up to `cuts[2j]`. A run may hold no station (the ordinate changes between two stations); a
 * body holds at least one. `signs[j]` says whether run j rises (1) or falls (−1). The bodies in `straights` (numbered
 * from 0) are held straight, and each of the others has a level of its own.
 */
export interface Layout {
  readonly cuts: readonly number[]
  readonly signs: readonly number[]
  readonly straights?: readonly number[]
}

/** Straight throughout. */
export const STRAIGHT: Layout = { cuts: [], signs: [] }

export function bodiesOf({ signs }: Layout): number {
  return Math.max(0, signs.length - 1)
}

/** The bodies that are not held straight. */
export function curvedBodiesOf(layout: Layout): number {
  return bodiesOf(layout) - (layout.straights?.length ?? 0)
}

/** For each body, which of the levels is its own; −1: it is held straight. */
export function levelNumbersOf(layout: Layout): number[] {
  let next = 0
  return Array.from({ length: bodiesOf(layout) }, (_, body) => (layout.straights?.includes(body) ? -1 : next++))
}

/** The level of each body, 0 for those held straight, from the unknowns of the layout's profile. */
export function levelsOf(layout: Layout, unknowns: readonly number[]): number[] {
  return levelNumbersOf(layout).map((level) => (level < 0 ? 0 : unknowns[level]!))
}

/** The stations a curve may cover: the first index, and the one after the last. */
export interface Reach {
  readonly from: number
  readonly to: number
}

export function keyOf({ cuts, signs, straights = [] }: Layout): string {
  return `${cuts.join(' ')} ${signs.join(' ')} ${straights.join(' ')}`
}

/** A cut to be moved, and by how many stations. */
export interface Move {
  readonly cut: number
  readonly step: number
}

/** The layouts one step away: an end of a run moved by a station, a run moved along, lengthened or shortened. */
export function neighboursOf(layout: Layout, reach: Reach): Layout[] {
  const found: Layout[] = []
  const add = (...moves: Move[]) => {
    const cuts = [...layout.cuts]
    for (const { cut, step } of moves) cuts[cut]! += step
    if (isInOrder(cuts, reach)) found.push({ ...layout, cuts })
  }
  for (let start = 0; start < layout.cuts.length; start += 2)
    for (const step of [1, -1]) {
      const end = start + 1
      add({ cut: start, step })
      add({ cut: end, step })
      add({ cut: start, step }, { cut: end, step })
      add({ cut: start, step }, { cut: end, step: -step })
    }
  return found
}

/**
 * The layouts beyond several active borders at once. A run of one station or none has no active border though it may be
 * too short, so these are also lengthened, at their beginning or at their end.
 */
export function layoutsBeyond(layout: Layout, borders: readonly Move[], reach: Reach): Layout[] {
  const found = borders.length > 0 ? [moved(layout, borders, reach)] : []
  const short = layout.cuts.flatMap((from, cut) => (cut % 2 === 0 && layout.cuts[cut + 1]! - from < 2 ? [cut] : []))
  if (short.length > 0) {
    const earlier = short.map((cut) => ({ cut, step: -1 }))
    const later = short.map((cut) => ({ cut: cut + 1, step: 1 }))
    found.push(moved(layout, [...borders, ...earlier], reach), moved(layout, [...borders, ...later], reach))
  }
  return found
}

/** The layout after making, in turn, those moves that keep its cuts in order. */
function moved(layout: Layout, moves: readonly Move[], reach: Reach): Layout {
  let cuts = layout.cuts
  for (const { cut, step } of moves) {
    const next = cuts.with(cut, cuts[cut]! + step)
    if (isInOrder(next, reach)) cuts = next
  }
  return { ...layout, cuts }
}

/** Lengths, in stations, tried for the runs of a first guess. */
const RUN_LENGTHS = [0, 1, 2, 4, 8, 16, 32]

/**
 * First guesses with a given number of bodies: the stations where the readings are best cut into that many level
 * stretches between straights (least squares), with runs of several lengths about each cut.
 */
export function firstGuesses(readings: readonly number[], bodies: number, reach: Reach): Layout[] {
  const found: Layout[] = []
  const changes = levelChanges(readings, bodies, reach)
  if (!changes) return found
  const levels = [0, ...changes.slice(1).map((to, body) => mean(readings.slice(changes[body]!, to))), 0]
  const signs = changes.map((_, run) => (levels[run + 1]! >= levels[run]! ? 1 : -1))
  for (const length of RUN_LENGTHS) {
    const cuts: number[] = []
    for (const [run, change] of changes.entries()) {
      const earliest = run === 0 ? reach.from : cuts[2 * run - 1]! + 1
      const latest = reach.to - (bodies - run)
      const from = Math.min(latest, Math.max(earliest, change - Math.ceil(length / 2)))
      const to = Math.min(latest, Math.max(from, change + Math.floor(length / 2)))
      cuts.push(from, to)
    }
    if (isInOrder(cuts, reach)) found.push({ cuts, signs })
  }
  return found
}

/** Guesses with one more body: a body cut in two, or a short body inserted in the middle of a run. */
export function withOneMoreBody({ cuts, signs, straights = [] }: Layout): Layout[] {
  const found: Layout[] = []
  const shifted = (from: number) => straights.map((body) => (body >= from ? body + 1 : body))
  for (let body = 1; body < signs.length; body++) {
    const [from, to] = [cuts[2 * body - 1]!, cuts[2 * body]!]
    if (to - from < 2 || straights.includes(body - 1)) continue
    for (const part of [1 / 3, 1 / 2, 2 / 3]) {
      const cut = Math.min(to - 1, Math.max(from + 1, Math.round(from + part * (to - from))))
      for (const sign of [1, -1])
        found.push({
          cuts: cuts.toSpliced(2 * body, 0, cut, cut),
          signs: signs.toSpliced(body, 0, sign),
          straights: shifted(body),
        })
    }
  }
  for (const [run, sign] of signs.entries()) {
    const [from, to] = [cuts[2 * run]!, cuts[2 * run + 1]!]
    const cut = (from + to) >> 1
    if (to > from)
      found.push({
        cuts: cuts.toSpliced(2 * run + 1, 0, cut, cut + 1),
        signs: signs.toSpliced(run, 0, sign),
        straights: shifted(run),
      })
  }
  return found
}

/** Where the best fitting level stretches begin and the last one ends; null when there are too few stations. */
function levelChanges(readings: readonly number[], bodies: number, reach: Reach): number[] | null {
  if (reach.to - reach.from < bodies) return null
  const sums = [0]
  const squares = [0]
  for (const [n, reading] of readings.entries()) {
    sums.push(sums[n]! + reading)
    squares.push(squares[n]! + reading * reading)
  }
  const misfit = (from: number, to: number) =>
    squares[to]! - squares[from]! - (sums[to]! - sums[from]!) ** 2 / (to - from)

  // best[to]: least misfit of the stations before `to` when the last of the bodies so far ends there.
  let best = squares.slice()
  const begins: number[][] = []
  for (let body = 1; body <= bodies; body++) {
    const next = new Array<number>(readings.length + 1).fill(Number.POSITIVE_INFINITY)
    const begin = new Array<number>(readings.length + 1).fill(reach.from)
    for (let to = reach.from + body; to <= reach.to; to++)
      for (let from = reach.from + body - 1; from < to; from++) {
        const total = best[from]! + misfit(from, to)
        if (total < next[to]!) {
          next[to] = total
          begin[to] = from
        }
      }
    best = next
    begins.push(begin)
  }
  let end = reach.from + bodies
  const straightBeyond = (to: number) => best[to]! + squares[readings.length]! - squares[to]!
  for (let to = end + 1; to <= reach.to; to++) if (straightBeyond(to) < straightBeyond(end)) end = to
  const changes = [end]
  for (let body = bodies - 1; body >= 0; body--) changes.unshift(begins[body]![changes[0]!]!)
  return changes
}

function isInOrder(cuts: readonly number[], reach: Reach): boolean {
  if (cuts[0]! < reach.from || cuts.at(-1)! > reach.to) return false
  return cuts.every((cut, n) => n === 0 || (n % 2 === 1 ? cut >= cuts[n - 1]! : cut > cuts[n - 1]!))
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
