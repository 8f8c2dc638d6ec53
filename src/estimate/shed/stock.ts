import { longer } from '../../measure/counting.ts'

/** What lies in the shed, or a part of it. An offcut is a stick too. Everything is counted singly. */
export interface Stock {
  readonly sticks: readonly StockedStick[]
  readonly joiners: readonly StockedJoiner[]
  readonly ties: number
  readonly fasteners: number
}

/** A rail of the catalogue: stock of any other could not be told apart. */
export interface RailKind {
  readonly section: string
  readonly material: string
}

export interface StockedStick extends RailKind {
  readonly lengthMm: number
  readonly count: number
}

export interface StockedJoiner extends RailKind {
  readonly count: number
}

export const NOTHING: Stock = { sticks: [], joiners: [], ties: 0, fasteners: 0 }

export function isNothing({ sticks, joiners, ties, fasteners }: Stock): boolean {
  return ties === 0 && fasteners === 0 && [...sticks, ...joiners].every(({ count }) => count === 0)
}

export function sameRail(a: RailKind, b: RailKind): boolean {
  return a.section === b.section && a.material === b.material
}

export function sameLength(aMm: number, bMm: number): boolean {
  return !longer(Math.abs(aMm - bMm), 0)
}

/** Both together, each kind of thing once. */
export function plus(a: Stock, b: Stock): Stock {
  return tidy({
    sticks: [...a.sticks, ...b.sticks],
    joiners: [...a.joiners, ...b.joiners],
    ties: a.ties + b.ties,
    fasteners: a.fasteners + b.fasteners,
  })
}

/** What is left of `whole` without `part`. More than there is cannot be taken: that throws. */
export function minus(whole: Stock, part: Stock): Stock {
  const negative = <T extends { count: number }>(rows: readonly T[]) =>
    rows.map((row) => ({ ...row, count: -row.count }))
  const left = plus(whole, {
    sticks: negative(part.sticks),
    joiners: negative(part.joiners),
    ties: -part.ties,
    fasteners: -part.fasteners,
  })
  if ([...left.sticks, ...left.joiners, { count: left.ties }, { count: left.fasteners }].some(({ count }) => count < 0))
    throw new RangeError('more is taken than there is')
  return left
}

/**
 * Stock in the one order in which it is kept: by section, material, and length, the longest first; equal rows summed,
 * empty ones left out. Lengths are kept to a millionth of a millimetre, the slack everything is counted with.
 */
export function tidy({ sticks, joiners, ties, fasteners }: Stock): Stock {
  const rounded = sticks.map((stick) => ({ ...stick, lengthMm: Math.round(stick.lengthMm * 1e6) / 1e6 }))
  return {
    sticks: summed(
      rounded.sort((a, b) => byRail(a, b) || b.lengthMm - a.lengthMm),
      (a, b) => sameRail(a, b) && a.lengthMm === b.lengthMm,
    ),
    joiners: summed([...joiners].sort(byRail), sameRail),
    ties,
    fasteners,
  }
}

function summed<T extends { readonly count: number }>(sorted: readonly T[], same: (a: T, b: T) => boolean): T[] {
  const rows: T[] = []
  for (const row of sorted) {
    const last = rows.at(-1)
    if (last && same(last, row)) rows[rows.length - 1] = { ...last, count: last.count + row.count }
    else rows.push(row)
  }
  return rows.filter(({ count }) => count !== 0)
}

function byRail(a: RailKind, b: RailKind): number {
  return compare(a.section, b.section) || compare(a.material, b.material)
}

/** By code unit: the order is the same in every place. */
function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}
