/** So many steps along one stretch, and along each of two, before the best are refined. */
const STEPS_ALONE = 96
const STEPS_OF_TWO = 20
/** So many of the best places are refined. */
const MOST_REFINED = 3

/**
 * Where along one or two stretches something is least, in whole millimetres from 0 to the length of each: a grid,
 * and from its best places steps to and fro that are halved down to 1 mm.
 *
 * Finds the least of what is as wide as the steps of the grid; at most 400 + 3·4·(2 + log₂(length)) looks. null where it is
 * infinite everywhere. Checked in tests/fitting/least-along.test.ts against a look at every millimetre.
 *
 * @param most of each stretch, mm
 */
export function leastAlong(
  most: readonly number[],
  look: (atMm: readonly number[]) => number,
): { readonly atMm: readonly number[]; readonly value: number } | null {
  const whole = most.map((mm) => Math.floor(mm))
  const steps = whole.length === 1 ? STEPS_ALONE : STEPS_OF_TWO
  const looked = gridOf(whole, steps).map((atMm) => ({ atMm, value: look(atMm) }))
  const best = looked
    .filter(({ value }) => value < Number.POSITIVE_INFINITY)
    .toSorted((a, b) => a.value - b.value)
    .slice(0, MOST_REFINED)
    .map((start) => refined(start, whole, steps, look))
    .toSorted((a, b) => a.value - b.value)
  return best[0] ?? null
}

function gridOf(whole: readonly number[], steps: number): number[][] {
  return whole.reduce<number[][]>(
    (places, mm) => {
      const count = Math.min(steps, mm)
      const along = Array.from({ length: count + 1 }, (_, n) => (count === 0 ? 0 : Math.round((n * mm) / count)))
      return places.flatMap((place) => along.map((at) => [...place, at]))
    },
    [[]],
  )
}

interface Place {
  readonly atMm: readonly number[]
  readonly value: number
}

function refined(
  start: Place,
  whole: readonly number[],
  steps: number,
  look: (atMm: readonly number[]) => number,
): Place {
  let here = start
  for (let step = Math.ceil(Math.max(...whole) / steps); step >= 1; ) {
    const around = ways(here.atMm, step, whole).map((atMm) => ({ atMm, value: look(atMm) }))
    const next = around.find(({ value }) => value < here.value)
    if (next) here = next
    else if (step === 1) break
    else step = Math.ceil(step / 2)
  }
  return here
}

/** The places a step away along each stretch, and along both together. */
function ways(atMm: readonly number[], step: number, whole: readonly number[]): number[][] {
  const moves = atMm.length === 1 ? [[1], [-1]] : PAIRS
  return moves
    .map((move) => atMm.map((mm, n) => Math.min(whole[n]!, Math.max(0, mm + step * move[n]!))))
    .filter((place) => place.some((mm, n) => mm !== atMm[n]))
}

const PAIRS = [-1, 0, 1].flatMap((x) => [-1, 0, 1].map((y) => [x, y])).filter(([x, y]) => x !== 0 || y !== 0)
