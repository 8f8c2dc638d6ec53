import { bySeverity } from '../../checking/by-severity.ts'
import { doubtfulFigures } from '../../checking/doubtful-figures.ts'
import type { Finding, PlanFinding } from '../../checking/finding.ts'
import { type Patch, patched } from '../../fitting/json-patch.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { fittedPatch } from '../fitted/fitted-patch.ts'
import type { Plan } from '../plan.ts'
import { workOf } from '../work.ts'
import { type Line, lineAfter, lineOf } from './line.ts'
import { closingPatches, hasProposals, proposalsFor, takesCutting } from './proposals.ts'

/** Remedies offered for one finding beside the first. */
const MOST_OTHERS = 3

/** Proposals tried for one finding. */
const MOST_TRIED = 24

/** Elements laid and checked again in all trials together; a trial lays all of a plan. */
const MOST_WORK = 12_000
const LEAST_TRIALS = 6
/** The same where each kind of car makes a trial of a large plan take as long again. */
const LEAST_WITH_CARS = 2
/** What moving one kind of car past an obstacle is worth. */
const ELEMENTS_PER_OBSTACLE = 5

/** Whole plans cut again in all trials together, and how much work that may be (`workOf`). */
const MOST_CUT = 6
const MOST_CUTTING = 300

/** How often it is looked for what closes a track again that a proposal opened. */
const MOST_RECLOSINGS = 8

/** What may still be tried for all findings together. */
interface Budget {
  trials: number
  reclosings: number
  cuttings: number
  /** What was found with each proposal: the rails of a track often ask for the same one. */
  readonly cut: Map<string, readonly Finding[] | null>
}

/** What is found in a plan when it is worked out to the end; null where it cannot be. */
export type FindAll = (input: PlanInput) => readonly Finding[] | null

/**
 * The findings, those about doubtful figures added, with what cures them. A remedy is offered only after it was tried: the plan with it applied is read, laid
 * and checked, the finding must be gone, and nothing of the same or a higher severity may be new. Only for findings about
 * pieces and joints is it cut again as well: no other remedy makes a curve tighter than the rules allow.
 *
 * @param input the plan as it was read
 * @param plan the same, completed
 * @param sent the same, as it was sent
 * @param findAll how a changed plan is worked out
 */
export function withRemedies(
  found: readonly Finding[],
  input: PlanInput,
  { tracks }: Pick<Plan, 'tracks'>,
  sent: unknown,
  findAll: FindAll,
): PlanFinding[] {
  // Remedies change what was fitted, so they write that first.
  const fitted = fittedPatch(sent, input)
  const written = patched(sent, fitted)
  const findings = bySeverity([...found, ...doubtfulFigures(written, tracks)])
  if (!findings.some(({ rule }) => hasProposals(rule))) return withoutRemedies(findings)
  const line = lineOf(input, written)
  const elements = line.tracks.reduce((sum, { placed }) => sum + placed.length, 0)
  const beside = ELEMENTS_PER_OBSTACLE * line.plan.obstacles.length * line.plan.cars.length
  const isLong = line.plan.cars.length > 0 && elements * line.plan.cars.length > MOST_WORK
  const budget = {
    trials: Math.max(isLong ? LEAST_WITH_CARS : LEAST_TRIALS, Math.floor(MOST_WORK / (elements + beside))),
    reclosings: MOST_RECLOSINGS,
    cuttings: Math.min(MOST_CUT, Math.floor(MOST_CUTTING / workOf(input))),
    cut: new Map<string, readonly Finding[] | null>(),
  }
  return findings.map((finding) => {
    const cures = takesCutting(finding.rule)
      ? remediesByCutting(finding, findings, line, budget, findAll)
      : remediesFor(finding, line, budget)
    const [remedy = null, ...otherRemedies] = cures.map((patch) => [...fitted, ...patch])
    return { ...finding, remedy, otherRemedies }
  })
}

/** Findings for which nothing was looked for. */
export function withoutRemedies(findings: readonly Finding[]): PlanFinding[] {
  return findings.map((finding) => ({ ...finding, remedy: null, otherRemedies: [] }))
}

function remediesFor(finding: Finding, line: Line, budget: Budget): Patch[] {
  const found: Patch[] = []
  if (budget.trials <= 0) return found
  for (const proposal of proposalsFor(finding, line).slice(0, MOST_TRIED)) {
    if (found.length > MOST_OTHERS || budget.trials <= 0) break
    if (found.some((known) => samePlaces(known, proposal))) continue
    const cured = tried(proposal, finding, line, budget)
    if (cured) found.push(cured)
  }
  return found
}

/** The proposals that cure the finding when the plan is worked out with them to the end. */
function remediesByCutting(
  finding: Finding,
  before: readonly Finding[],
  line: Line,
  budget: Budget,
  findAll: FindAll,
): Patch[] {
  const found: Patch[] = []
  for (const proposal of proposalsFor(finding, line)) {
    const name = JSON.stringify(proposal)
    if (found.length > MOST_OTHERS || (budget.cuttings <= 0 && !budget.cut.has(name))) break
    const after = lineTried(proposal, line, budget)
    if (!after) continue
    if (!budget.cut.has(name)) {
      budget.cuttings--
      // What the shed has for the plan is not in the plan as it was sent.
      budget.cut.set(name, findAll({ ...after.input, supplies: line.input.supplies }))
    }
    const findings = budget.cut.get(name)
    if (findings && isBetter(finding, { ...line, findings: before }, { ...after, findings }, proposal))
      found.push(proposal)
  }
  return found
}

/** The same fields with figures rounded less. */
function samePlaces(a: Patch, b: Patch): boolean {
  return (
    a.length === b.length &&
    a.every(({ op, path, value }, index) => {
      const other = b[index]!
      return op === other.op && path === other.path && typeof value === typeof other.value && isFigure(value)
    })
  )
}

function isFigure(value: unknown): boolean {
  return typeof value === 'number' || (typeof value === 'string' && /\d/.test(value))
}

/** The proposal if it cures the finding; with what closes the track again, where that is all that is wrong with it. */
function tried(proposal: Patch, finding: Finding, line: Line, budget: Budget): Patch | null {
  const after = lineTried(proposal, line, budget)
  if (!after) return null
  if (isBetter(finding, line, after, proposal)) return proposal
  const track = line.tracks.findIndex(({ name }) => name === finding.track)
  if (finding.rule === 'closure' || track < 0 || !closes(line, track) || closes(after, track)) return null
  if (budget.reclosings-- <= 0) return null
  for (const closing of closingPatches(after, track).slice(0, MOST_CLOSINGS)) {
    const both = [...proposal, ...closing]
    const closed = lineTried(both, line, budget)
    if (closed && isBetter(finding, line, closed, proposal)) return both
  }
  return null
}

const MOST_CLOSINGS = 4

function closes({ findings, tracks }: Line, track: number): boolean {
  return !findings.some(({ rule, track: name }) => rule === 'closure' && name === tracks[track]!.name)
}

function lineTried(patch: Patch, line: Line, budget: Budget): Line | null {
  budget.trials--
  return lineAfter(patch, line)
}

const RANK = { stop: 2, warn: 1, note: 0 }

/** The finding is gone, and nothing as grave is new or has become worse. */
function isBetter(finding: Finding, before: Line, after: Line, patch: Patch): boolean {
  const grave = ({ severity }: Finding) => RANK[severity] >= RANK[finding.severity]
  const then = tally(before.findings.filter(grave), before, patch)
  const now = tally(after.findings.filter(grave), after, [])
  const own = keyOf(finding, before, patch)
  const wasThere = then.get(own) ?? []
  // What is no finding of the line is gone with what it was about.
  if (wasThere.length > 0 && (now.get(own) ?? []).length >= wasThere.length) return false
  return [...now].every(([key, excesses]) => {
    const earlier = then.get(key) ?? []
    return excesses.length <= earlier.length && Math.max(...excesses) <= Math.max(...earlier) * (1 + 1e-9) + 1e-6
  })
}

function tally(findings: readonly Finding[], line: Line, patch: Patch): Map<string, number[]> {
  const counted = new Map<string, number[]>()
  for (const finding of findings) {
    const key = keyOf(finding, line, patch)
    const excess = Math.abs((finding.measured ?? 0) - (finding.limit ?? 0))
    counted.set(key, [...(counted.get(key) ?? []), excess])
  }
  return counted
}

/** What stands beside a track may come to stand beside another of its elements. */
const OF_TRACK = new Set(['obstacle', 'outline', 'track-spacing'])

/** What makes a finding the same in the changed plan: elements count on behind one that the patch adds. */
function keyOf({ rule, track, element, unit }: Finding, { tracks }: Line, patch: Patch): string {
  if (element === null || OF_TRACK.has(rule)) return JSON.stringify([rule, track, null, unit])
  const index = tracks.findIndex(({ name }) => name === track)
  const added = patch.filter(({ op, path }) => {
    const at = new RegExp(`^/tracks/${index}/elements/(\\d+)$`).exec(path)
    return op === 'add' && at !== null && Number(at[1]) <= element
  })
  return JSON.stringify([rule, track, element + added.length, unit])
}
