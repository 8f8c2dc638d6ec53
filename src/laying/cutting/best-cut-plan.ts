import { exceeds, piecesToCover } from '../../measure/counting.ts'
import { minorUnitsOf } from '../../measure/money.ts'
import { sum } from '../../measure/sum.ts'
import type { Effort } from '../../plan/rows/plan.ts'
import { sparesFor } from '../bill.ts'
import { leftOverOf } from '../sawing.ts'
import { isFree } from './arrange-chain.ts'
import { type CutSupplies, cheaperFor, packsToBuy } from './compare-plans.ts'
import { type CutPlan, type CutRules, fewestSticks, planCuts } from './cut-plan.ts'
import { cutSticks } from './cut-sticks.ts'
import { EXHAUSTIVE_WORK, partFor, type SearchEffort, STEPS_OF, withSteps, workFor } from './effort.ts'
import { shortestOf } from './equal-plans.ts'
import { firstPlan, type Known } from './first-plan.ts'
import type { ChainLayout } from './lay-chain.ts'
import { compareNeatness, neatnessOf } from './neatness.ts'
import { placePieces } from './place-pieces.ts'
import { type PlannedChains, planChains } from './plan-chains.ts'
import { planWebs } from './plan-webs.ts'
import type { CutProblem, CuttingStyle, Run, Work } from './problem.ts'

export interface BestCutPlan {
  readonly plan: CutPlan
  /** The cost of sticks and joiners, and a lower bound of it: in the smallest unit of the currency, or null where sticks have no price. */
  readonly cost: { readonly cents: number; readonly leastCents: number } | null
  /** No plan is cheaper (or, where prices are missing, buys less length). */
  readonly provenOptimal: boolean
}

/**
 * The cut plan that costs least, then has the fewest joints, then cuts as few whole sticks or as evenly as asked, as far
 * as it can be found within the effort. A good plan is made first, by laying stick after stick; then better ones are looked for.
 *
 * @param otherJoints joints that exist however the rails are divided: closings and joins to other track
 * @param apartMm how far apart joints of neighbouring rails are kept
 * @param keepsFirst whether the first plan is kept where none is cheaper or has fewer joints
 * @returns the plan, or how much rail is missing: 0 where there is enough, but every plan that was found is too dear
 */
export function bestCutPlan(
  runs: readonly Run[],
  supplies: CutSupplies,
  rules: CutRules,
  options: {
    readonly otherJoints: number
    readonly effort: SearchEffort
    readonly apartMm?: number | undefined
    readonly cutting: CuttingStyle
    readonly keepsFirst?: boolean
    /** What is left of the work of the whole plan; all that the effort has when left out. */
    readonly work?: Work | undefined
    /** What sticks and joiners may cost at most, in the smallest unit of the currency, where a dearer plan is of no use. */
    readonly mostCents?: number | undefined
  },
): ({ readonly ok: true } & BestCutPlan) | { readonly ok: false; readonly missingMm: number } {
  const problem = problemOf(runs, supplies, rules, options)
  const { effort, cutting, keepsFirst = false, work = workFor(options.effort), mostCents = NO_PLAN.cost } = options
  const free = runs.every(isFree)
  const ruled = runs.some(({ jointBy, beside }) => jointBy || beside)
  const made = !ruled ? planCuts(runs, supplies.sticks, rules, cheaperFor(supplies, options.otherJoints)) : null
  const first = made?.ok ? made.plan : null
  const sound = first && !hasShortPieces(first) ? first : null
  const known = firstPlan(problem, sound && worthOf(sound, problem), effort, work)
  // Where joints have rules or take trim, what is found depends on what else is looked for.
  const tooDear = known !== null && free && known.cost > mostCents
  const worse = tooDear ? { ...NO_PLAN, cost: mostCents } : known && { cost: known.cost, joints: known.joints + 1 }
  const planned =
    problem.lengths.length > 0 && (known || piecesCanBeLongEnough(problem))
      ? planChains(problem, worse ?? NO_PLAN, effort, work)
      : null
  if (tooDear && !planned?.layouts) return { ok: false, missingMm: 0 }
  const closer =
    planned && effort !== 'rough' ? searchedExhaustively(problem, planned, known, free, effort, work) : null
  const layouts = closer?.layouts ?? planned?.layouts ?? known?.layouts
  const found = layouts ? planOf(layouts, runs, supplies, rules) : first
  const plan = found && sound && cutting === 'whole-sticks' ? neaterOf(problem, sound, found, keepsFirst) : found
  if (!plan) {
    if (ruled) return relaxedRules(runs, supplies, rules, { ...options, work })
    return {
      ok: false,
      missingMm: made && !made.ok ? made.missingMm : Math.max(...runs.map(({ lengthMm }) => lengthMm)),
    }
  }
  const { cost, joints } = worthOf(plan, problem)
  const keepsMinimum = layouts || sound
  const least = keepsMinimum
    ? Math.max(planned?.leastCost ?? 0, closer?.leastCost ?? 0)
    : planChains({ ...problem, minimumPieceMm: 0 }, { cost, joints: joints + 1 }, 'bound', work).leastCost
  const leastCost = Math.min(least, cost)
  return {
    ok: true,
    plan,
    cost: pricesKnown(supplies) ? { cents: cost, leastCents: leastCost } : null,
    provenOptimal: Boolean(keepsMinimum) && leastCost >= cost,
  }
}

/** The first of two plans if it is as good and cuts fewer sticks, or is kept. */
function neaterOf(problem: CutProblem, first: CutPlan, second: CutPlan, kept: boolean): CutPlan {
  const [a, b] = [worthOf(first, problem), worthOf(second, problem)]
  const equal = a.cost === b.cost && a.joints === b.joints
  const neatness = ({ sticks }: CutPlan) => neatnessOf(sticks, problem.kerfMm)
  return equal && (kept || compareNeatness(neatness(first), neatness(second)) < 0) ? first : second
}

/** Whether a run is divided into pieces some of which are too short; a run that is itself too short is cut as it is. */
function hasShortPieces({ shortPieces, piecesPerRun }: CutPlan): boolean {
  return shortPieces.some(({ run }) => piecesPerRun[run]! > 1)
}

interface ExhaustiveSearch {
  /** Only if they are better than what was found. */
  readonly layouts: readonly ChainLayout[] | null
  /** No plan costs less. */
  readonly leastCost: number
}

/**
 * Small problems are searched exhaustively where chains leave something open: piece by piece where joints have rules;
 * otherwise by which runs have pieces of which sticks, since the minimum piece may keep runs from being laid as chains.
 */
function searchedExhaustively(
  problem: CutProblem,
  planned: PlannedChains,
  known: Known | null,
  free: boolean,
  effort: Effort,
  work: Work,
): ExhaustiveSearch | null {
  const { cost, joints } = planned.layouts ? planned : (known ?? NO_PLAN)
  const part = partFor(problem.lengths.length)
  if (free) {
    if (!planned.open || planned.leastCost >= cost) return null
    const { open } = planned
    const { layout, leastCost } = withSteps(work, part * EXHAUSTIVE_WORK[effort].webs, STEPS_OF.webs, (slice) =>
      planWebs(problem, open, { cost, joints }, slice),
    )
    return { layouts: layout && [layout], leastCost }
  }
  const layouts = planned.layouts ?? known?.layouts
  const wholeSticks = problem.cutting === 'whole-sticks'
  const shortestMm = layouts ? (wholeSticks ? Number.POSITIVE_INFINITY : shortestOf(layouts, problem.runs.length)) : 0
  const { layout, whole } = withSteps(work, part * EXHAUSTIVE_WORK[effort].placing, STEPS_OF.placing, (slice) =>
    placePieces(problem, { cost, joints, shortestMm }, slice),
  )
  return { layouts: layout && [layout], leastCost: whole && (layout || layouts) ? Number.POSITIVE_INFINITY : 0 }
}

/** Whether each run by itself can be made of pieces that are long enough. */
function piecesCanBeLongEnough({ runs, lengths, minimumPieceMm }: CutProblem): boolean {
  const longestMm = Math.max(...lengths.map(({ lengthMm }) => lengthMm))
  return runs.every(({ lengthMm }) => {
    const fewest = piecesToCover(lengthMm, longestMm)
    return fewest === 1 || !exceeds(fewest * minimumPieceMm, lengthMm)
  })
}

const NO_PLAN = { cost: Number.POSITIVE_INFINITY, joints: Number.POSITIVE_INFINITY }

/** Joints of neighbouring rails closer than this count as opposite each other. */
const LEAST_STAGGER_MM = 25

/**
 * Relaxes rules for joints that no plan was found to keep: the stagger is halved, repeatedly,
 * then dropped, then the other rules are dropped.
 */
function relaxedRules(
  ...[runs, supplies, rules, options]: Parameters<typeof bestCutPlan>
): ReturnType<typeof bestCutPlan> {
  const half = (options.apartMm ?? 0) / 2
  if (half >= LEAST_STAGGER_MM && runs.some(({ beside }) => beside)) {
    const best = bestCutPlan(runs, supplies, rules, { ...options, apartMm: half })
    return best.ok ? { ...best, provenOptimal: false } : best
  }
  const eased = runs.some(({ beside }) => beside)
    ? runs.map(({ beside: _, ...run }): Run => run)
    : runs.map(({ jointBy: _, ...run }): Run => run)
  const best = bestCutPlan(eased, supplies, rules, { ...options, apartMm: undefined })
  return best.ok ? { ...best, provenOptimal: false } : best
}

function problemOf(
  runs: readonly Run[],
  supplies: CutSupplies,
  { kerf: kerfMm, minimumPiece: minimumPieceMm }: CutRules,
  { otherJoints, apartMm, cutting }: Omit<Parameters<typeof bestCutPlan>[3], 'effort'>,
): CutProblem {
  const { joiners } = supplies
  const sticks = supplies.sticks.filter(
    ({ length: lengthMm, buyable, onHand }) => !exceeds(minimumPieceMm, lengthMm) && (buyable || onHand > 0),
  )
  const priced = pricesKnown(supplies)
  const packCost = sticks.map(({ price, length: lengthMm, packSize }) =>
    priced ? cents(price) : Math.round(packSize * lengthMm * PARTS_OF_A_MM),
  )
  const joinerPack = priced ? cents(joiners.pricePerPack) : 0
  return {
    runs,
    lengths: sticks.map(({ length: lengthMm, buyable, onHand, packSize }, t) => ({
      lengthMm,
      limit: buyable ? Number.POSITIVE_INFINITY : onHand,
      free: onHand,
      leastCost: packCost[t]! / packSize,
    })),
    kerfMm,
    minimumPieceMm,
    costOf: (counts) =>
      counts.reduce(
        (sum, count, t) => sum + packsToBuy(count, sticks[t]!.onHand, sticks[t]!.packSize) * packCost[t]!,
        0,
      ),
    joinersCost: (joints) => {
      const needed = joints + otherJoints
      const toHave = needed + sparesFor(needed, joiners.sparePct)
      return packsToBuy(toHave, joiners.onHand, joiners.packSize) * joinerPack
    },
    apart: apartMm === undefined ? undefined : { byMm: apartMm },
    cutting,
  }
}

/** Where prices are missing, lengths are compared in whole thousandths of a millimetre. */
const PARTS_OF_A_MM = 1000

/** Joiners without a price cost nothing. */
function pricesKnown({ sticks }: CutSupplies): boolean {
  return sticks.every(({ price, buyable }) => price !== null || !buyable)
}

function cents(price: string | null): number {
  return price === null ? 0 : minorUnitsOf(price)
}

function worthOf(plan: CutPlan, problem: CutProblem): Known {
  const counts = problem.lengths.map(
    ({ lengthMm }) => plan.sticks.filter((stick) => stick.lengthMm === lengthMm).length,
  )
  const joints = sum(plan.piecesPerRun) - plan.piecesPerRun.length
  const cost = problem.costOf(counts) + problem.joinersCost(joints)
  return { cost, joints, layouts: null }
}

function planOf(
  layouts: readonly ChainLayout[],
  runs: readonly Run[],
  { sticks: shelves }: CutSupplies,
  { kerf: kerfMm, minimumPiece: minimumPieceMm }: CutRules,
): CutPlan {
  const left = new Map(shelves.map((stick) => [stick.length, stick.onHand]))
  const piecesPerRun = runs.map(() => 0)
  const shortPieces: { run: number; lengthMm: number }[] = []
  const sticks = layouts.flatMap((layout) => cutSticks(runs, layout, kerfMm))
  for (const stick of sticks) {
    const onHand = left.get(stick.lengthMm) ?? 0
    left.set(stick.lengthMm, onHand - 1)
    stick.fromStock = onHand > 0
    for (const { run, lengthMm } of stick.pieces) {
      piecesPerRun[run]!++
      if (exceeds(minimumPieceMm, lengthMm)) shortPieces.push({ run, lengthMm })
    }
  }
  return {
    sticks,
    piecesPerRun,
    sticksLowerBound: fewestSticks(
      runs.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
      shelves,
    ),
    ...leftOverOf(sticks, minimumPieceMm),
    shortPieces,
  }
}
