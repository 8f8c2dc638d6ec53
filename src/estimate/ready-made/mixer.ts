import { type Bill, billOf } from '../../laying/bill.ts'
import { PLAN_STEPS, STEPS_OF, withSteps } from '../../laying/cutting/effort.ts'
import type { Work } from '../../laying/cutting/problem.ts'
import { minorUnitsOf } from '../../measure/money.ts'
import { sum } from '../../measure/sum.ts'
import type { Effort } from '../../plan/rows/plan.ts'
import { type LaidOut, layOut } from '../cutting/lay-out.ts'
import type { Site } from '../cutting/site.ts'
import type { CoverableElements } from './coverable.ts'
import { type Choice, coveringOnce } from './coverage.ts'

/**
 * How many mixes of loose rail and ready-made pieces are tried, each with a rough cut plan: fewer, the more elements
 * can be covered.
 */
const MOST_TRIED: Readonly<Record<Effort, { readonly inAll: number; readonly elements: number }>> = {
  quick: { inAll: 100, elements: 800 },
  thorough: { inAll: 1_000, elements: 10_000 },
}
const LEAST_TRIED = 6

/** The value of a mix, lower is better: rail bought without a price, then money, then minus the ready-made track. */
export type Worth = readonly [number, number, number]

/** A mix that was laid out roughly. Its layout is not kept: all of them together would be many times the plan. */
interface Tried {
  /** False where it cannot be laid, or is clearly worth less than another. */
  readonly ok: boolean
  /** Null where it cannot be told, too. */
  readonly worth: Worth | null
}

/** Estimates mixes, each once. */
export class Mixer {
  private readonly known = new Map<string, Tried>()
  private readonly cover = coveringOnce('rough')
  private readonly site: Site
  private readonly elements: CoverableElements
  private readonly work: Work
  private readonly compared: boolean
  private left: number

  /** @param compared whether what is bought must have a price, so that mixes can be compared */
  constructor(site: Site, elements: CoverableElements, work: Work, compared: boolean) {
    this.work = work
    this.site = site
    this.elements = elements
    this.compared = compared
    const { inAll, elements: most } = MOST_TRIED[site.plan.effort]
    const each = Math.floor(most / Math.max(1, elements.coverable.length))
    this.left = Math.min(inAll, Math.max(LEAST_TRIED, each))
  }

  /** How many more may be tried. */
  get more(): number {
    return this.left
  }

  get outOfTries(): boolean {
    return this.left <= 0 || this.work.left <= 0
  }

  /** @param other what the best mix so far is worth; it never becomes less */
  try(choice: Choice, other: Worth | null = null): Tried {
    const key = choice.join()
    const known = this.known.get(key)
    if (known) return known
    this.left--
    const { sticks } = this.site.plan.supplies
    const railPriced = sticks.every(({ price, buyable }) => price !== null || !buyable)
    const mostCents = other && railPriced ? other[1] : Number.POSITIVE_INFINITY
    const laid = withSteps(this.work, PLAN_STEPS.rough, STEPS_OF.search, (slice) =>
      layOut(this.site, this.elements, choice, 'rough', slice, this.cover, mostCents),
    )
    const tried = { ok: laid.ok, worth: laid.ok ? this.worth(laid.laidOut, railPriced) : null }
    this.known.set(key, tried)
    return tried
  }

  private worth(laid: LaidOut, railPriced: boolean): Worth | null {
    const bill = billOf(laid.lines, this.site.plan.supplies)
    const bought = bill.lines.filter(({ item, packs }) => item === 'panel' && packs > 0)
    if (this.compared && bought.some(({ amount }) => amount === null || !railPriced)) return null
    return worthOf(laid, bill)
  }
}

export function worthOf({ covered }: LaidOut, bill: Bill): Worth {
  const unpricedMm = bill.lines
    .filter(({ item, amount }) => item === 'rail-stick' && amount === null)
    .map(({ packs, packSize, lengthMm }) => packs * packSize * lengthMm!)
  const coveredMm = covered.stretches.map(({ fromMm, toMm }) => toMm - fromMm)
  return [sum(unpricedMm), minorUnitsOf(bill.total), -sum(coveredMm)]
}

export function compareWorth(a: Worth, b: Worth): number {
  for (const [n, value] of a.entries()) if (value !== b[n]) return value - b[n]!
  return 0
}
