import { bodiesOf, type Layout, levelsOf } from './layout.ts'

/**
 * The layout with every body whose level is within the limit held straight. One at an end belongs to the straight
 * beyond it and is left out, and neighbouring ones are joined.
 *
 * @returns null when there is no such body, or no other
 */
export function straightened(layout: Layout, unknowns: readonly number[], limit: number): Layout | null {
  const levels = levelsOf(layout, unknowns)
  const isFlat = levels.map((level) => Math.abs(level) <= limit)
  const held = isFlat.filter(Boolean).length
  if (held <= (layout.straights?.length ?? 0) || held === levels.length) return null
  const cuts = [...layout.cuts]
  const kept = levels.map((level, body) => ({ level: isFlat[body] ? 0 : level }))
  // From the last run to the first, so that what has been left out does not move what is still to be looked at.
  for (let run = bodiesOf(layout); run >= 0; run--) {
    const before = run === 0 || kept[run - 1]!.level === 0
    const after = run >= kept.length || kept[run]!.level === 0
    if (!before || !after) continue
    cuts.splice(2 * run, 2)
    kept.splice(Math.min(run, kept.length - 1), 1)
  }
  return {
    cuts,
    signs: [...kept, { level: 0 }].map(({ level }, run) => (level >= (kept[run - 1]?.level ?? 0) ? 1 : -1)),
    straights: kept.flatMap(({ level }, body) => (level === 0 ? [body] : [])),
  }
}

/**
 * The half throw that errors of reading alone may make of the longest body held straight: twice its standard deviation
 * at the middle of m stations, each read with an even error of ±r (standard deviation r/√3). A reading at i from the
 * nearer end counts for i/2 in the middle, so that is 2·(r/√3)·√(m³/48) = r·m^1.5/6. Derived;
 * tests/bending/bend-check/straights.test.ts.
 */
export function misreadHalfThrow({ cuts, straights = [] }: Layout, resolution: number): number {
  const held = straights.map((body) => cuts[2 * body + 2]! - cuts[2 * body + 1]!)
  return (resolution * Math.max(0, ...held) ** 1.5) / 6
}

/**
 * The layout with a straight of one station in those runs that pass from bending one way to the other; null if there is
 * no such run.
 */
export function withStraightsBetween(
  layout: Layout,
  unknowns: readonly number[],
  runs: Runs = () => true,
): Layout | null {
  const levels = levelsOf(layout, unknowns)
  let { cuts, signs, straights = [] } = layout
  for (let run = levels.length - 1; run > 0; run--) {
    const [before, after] = [levels[run - 1]!, levels[run]!]
    const [from, to] = [cuts[2 * run]!, cuts[2 * run + 1]!]
    if (before * after >= 0 || to <= from || !runs({ from, to, before, after })) continue
    const cut = Math.min(to - 1, Math.floor(from + (before / (before - after)) * (to - from)))
    cuts = cuts.toSpliced(2 * run + 1, 0, cut, cut + 1)
    signs = signs.toSpliced(run, 0, signs[run]!)
    straights = [...straights.map((body) => (body >= run ? body + 1 : body)), run].sort((a, b) => a - b)
  }
  return signs.length > layout.signs.length ? { cuts, signs, straights } : null
}

/** Chooses among runs by the stations they hold and the levels before and after them. */
type Runs = (run: { from: number; to: number; before: number; after: number }) => boolean

/**
 * Whether more readings in succession are 0 within the resolution than a run that passes evenly through 0 can have: with
 * a step of s between stations it is within ±r at no more than 2r/s + 1 of them. Derived; tests/bending/bend-check/straights.test.ts.
 */
export function showsStraight(measured: readonly number[], resolution: number): Runs {
  return ({ from, to, before, after }) => {
    let longest = 0
    let here = 0
    for (const reading of measured.slice(from, to)) {
      here = Math.abs(reading) <= resolution ? here + 1 : 0
      longest = Math.max(longest, here)
    }
    const step = Math.abs(after - before) / (to - from + 1)
    return longest > (2 * resolution) / step + 1
  }
}
