/*
 * Evenly spaced feeders along one stretch of rail, and one load on it. Every feeder supplies the load, through its own
 * resistance F and the rail between; rail has a uniform resistance per millimetre. All resistances are for both
 * directions. The drop at the load is the current times the resistance between the load and the supply.
 *
 * A row of j feeders seen from beyond its last one has the resistance of a ladder,
 *
 * C(1) = F, C(j) = F ∥ (C(j − 1) + r·S), a ∥ b = a·b/(a + b)
 *
 * r rail per millimetre, S the spacing. A load between two rows A and B with r·S between them, at x from A, sees
 * (A + r·x) ∥ (B + r·(S − x)), at most (A + B + r·S)/4, where both ways are equal; if no place between them makes
 * them equal, the worst place is the feeder at one end. Closed forms; the network solved node by node is in
 * tests/laying/feeder-network.test.ts.
 */

export interface FeederRow {
  readonly feeders: number
  readonly lengthMm: number
  readonly ohmPerMm: number
  readonly feederOhm: number
}

/**
 * Largest resistance to the supply on a closed track with feeders L/n apart, anywhere on it: H/2 + r·S/4 with the load
 * half-way between two feeders, H the ladder of half the ring. The current is the same on both sides, so none crosses
 * the place opposite the load. If that is between two feeders, H starts with a whole one; if it is at a feeder, with
 * half of one, 2F.
 */
export function worstOnLoopOhm({ feeders, lengthMm, ohmPerMm, feederOhm }: FeederRow): number {
  const spacingOhm = (ohmPerMm * lengthMm) / feeders
  let half = feeders % 2 === 0 ? feederOhm : 2 * feederOhm
  for (let n = 1; n < feeders / 2; n++) half = beside(feederOhm, half + spacingOhm)
  return half / 2 + spacingOhm / 4
}

/**
 * Where the outermost feeders of an open track go so that the worst place on it is as good as it can be, with the
 * others evenly between them: as far from the ends as makes the drop at the ends that of the worst place between two
 * feeders. The first grows and the second falls with the distance.
 */
export function bestOnOpenTrack(row: FeederRow): { readonly endMm: number; readonly worstOhm: number } {
  const { feeders, lengthMm, ohmPerMm, feederOhm } = row
  if (feeders === 1) return { endMm: lengthMm / 2, worstOhm: feederOhm + (ohmPerMm * lengthMm) / 2 }
  let [low, high] = [0, lengthMm / 2]
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2
    const { atEndOhm, betweenOhm } = worstOnOpenTrack(row, middle)
    if (atEndOhm < betweenOhm) low = middle
    else high = middle
  }
  const { atEndOhm, betweenOhm } = worstOnOpenTrack(row, low)
  return { endMm: low, worstOhm: Math.max(atEndOhm, betweenOhm) }
}

/** Enough for the last digit of a double. */
const HALVINGS = 54

/** Largest resistance to the supply at the ends of an open track and between its feeders, the outermost at `endMm`. */
export function worstOnOpenTrack(
  { feeders, lengthMm, ohmPerMm, feederOhm }: FeederRow,
  endMm: number,
): { readonly atEndOhm: number; readonly betweenOhm: number } {
  const spacingOhm = feeders === 1 ? 0 : (ohmPerMm * (lengthMm - 2 * endMm)) / (feeders - 1)
  const ladders = [feederOhm]
  while (ladders.length < feeders) ladders.push(beside(feederOhm, ladders.at(-1)! + spacingOhm))
  let betweenOhm = 0
  for (let left = 1; left < feeders; left++)
    betweenOhm = Math.max(betweenOhm, worstBetween(ladders[left - 1]!, ladders[feeders - left - 1]!, spacingOhm))
  return { atEndOhm: ladders.at(-1)! + ohmPerMm * endMm, betweenOhm }
}

/**
 * Spacing of feeders in a long row between which the resistance to the supply is at most `ohm`. A long ladder satisfies
 * H = F ∥ (H + r·S), so the worst place has √(r·S·(r·S + 4F))/4, and r·S = √(4F² + 16·ohm²) − 2F.
 */
export function spacingInLongRowMm(ohm: number, ohmPerMm: number, feederOhm: number): number {
  return (16 * ohm * ohm) / (Math.sqrt(4 * feederOhm * feederOhm + 16 * ohm * ohm) + 2 * feederOhm) / ohmPerMm
}

function worstBetween(a: number, b: number, spacingOhm: number): number {
  if (Math.abs(a - b) <= spacingOhm) return (a + b + spacingOhm) / 4
  return beside(Math.max(a, b), Math.min(a, b) + spacingOhm)
}

/** Two resistances side by side. */
function beside(a: number, b: number): number {
  return a === 0 || b === 0 ? 0 : (a * b) / (a + b)
}
