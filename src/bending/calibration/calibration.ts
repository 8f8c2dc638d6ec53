import type { Fault } from '../../measure/fault.ts'
import type { TestBend } from '../../plan/rows/rail.ts'
import { type Metal, withYield } from '../metal.ts'
import { type BenderLine, type BenderWithRail, benderLine } from './bender-line.ts'
import { hasYield, NO_YIELD, type Resolution, readYield, type YieldReading } from './effective-yield.ts'
import { type Rail, type ReadBend, readTestBend, testBendFault } from './test-bend.ts'

/** What test bends show about a rail. */
export interface Calibration {
  /**
   * Null when the bends are passes and the yield is known from elsewhere, or no yield explains them; the bender's line
   * is valid all the same.
   */
  readonly effectiveYieldMpa: number | null
  /** The yield's band from the readings' resolution; null: not bounded on that side. */
  readonly lowMpa: number | null
  readonly highMpa: number | null
  /**
   * Half the band over the yield: `well` up to 5 %, `fairly` up to 15 % (the usual spread of a known temper), else
   * `poorly`.
   */
  readonly determined: 'well' | 'fairly' | 'poorly'
  /** Radii give the yield itself; passes give it together with the bender's own errors. */
  readonly from: 'radii' | 'passes'
  /** What the bends determine; see `toldBy`. */
  readonly tells: readonly Told[]
  /** One for each test bend, in order. */
  readonly readings: readonly (YieldReading & { readonly used: boolean })[]
  /** Least and greatest yield of the readings used. */
  readonly spread: { readonly leastMpa: number; readonly greatestMpa: number } | null
  /** False when the bands of the readings used do not overlap: the metal varies, or a reading is wrong. */
  readonly consistent: boolean
  /** From passes alone, with the rail its estimates are made for. */
  readonly line: { readonly line: BenderLine; readonly rail: BenderWithRail } | null
}

export const TOLD = ['yield', 'yield-or-offset', 'offset', 'scale'] as const

type Told = (typeof TOLD)[number]

/**
 * What test bends determine. Radii tell the yield. A pass tells one thing: both a higher yield and play in the bender
 * make the same radius take a greater depth, so where the yield is known it tells the bender's offset, and otherwise
 * either, the bender being taken as free of play. Several passes whose depths differ enough tell its scale too, but not
 * the two apart: over the radii of a garden railway a changed yield moves all depths by nearly the same amount
 * (tests/bending/calibration/calibration.test.ts).
 */
function toldBy(from: Calibration['from'], yieldKnown: boolean, line: BenderLine | null): Told[] {
  const ofYield: Told[] = from === 'radii' ? ['yield'] : yieldKnown ? [] : ['yield-or-offset']
  if (line === null) return ofYield
  const ofBender: Told[] = from === 'radii' || yieldKnown ? ['offset'] : []
  return [...ofYield, ...ofBender, ...(line.hasScale ? (['scale'] as const) : [])]
}

export type CalibrationResult =
  | { readonly ok: true; readonly calibration: Calibration }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const WELL = 0.05
const FAIRLY = 0.15

/**
 * Calibrates a rail by test bends: the effective yield with its band and, from passes through a bender, that bender's
 * line for this rail. Radii, where there are any, decide the yield alone; passes do so only where nothing else is known
 * of it.
 *
 * Several bends are averaged in ln(yield), each weighted by 1/(width of its band)², which is least squares; the band is
 * the same average of the bands' edges and therefore holds the yield whenever every single band does. Checked by
 * simulated, rounded bends in tests/bending/calibration/calibration.test.ts.
 *
 * @param tests at least one
 * @param yieldKnown whether the metal's nominal yield means something (its temper is known); if not, a bender's line is
 *   made with the yield from its passes
 */
export function calibrate(
  rail: Rail,
  tests: readonly TestBend[],
  resolution: Resolution,
  yieldKnown: boolean,
): CalibrationResult {
  const faults = testBendFaults(tests, rail)
  if (faults.length > 0) return { ok: false, faults }

  const bends = readAll(tests, rail)
  const from = bends.some(({ kind }) => kind === 'radii') ? 'radii' : 'passes'
  // Where radii or the temper give the yield, a pass that takes more or less depth shows what the bender does.
  const tellsYield = ({ kind }: ReadBend) => kind === 'radii' || (from === 'passes' && !yieldKnown)
  const all = bends.map((bend) => ({ bend, reading: tellsYield(bend) ? readYield(bend, rail, resolution) : NO_YIELD }))
  const telling = all.filter(({ reading }) => hasKnownYield(reading))
  const bounded = telling.filter(({ reading }) => reading.lowMpa !== null && reading.highMpa !== null)
  const used = bounded.length > 0 ? bounded : telling
  const combined = combine(used.map(({ reading }) => reading))

  const passes = passesOf(bends)
  const lineYieldMpa = combined.effectiveYieldMpa
  let line: Calibration['line'] = null
  if (passes.length > 0 && rail.bender) {
    const lineRail: BenderWithRail = {
      section: rail.section,
      bender: rail.bender,
      metal: lineYieldMpa === null ? rail.metal : withYield(rail.metal, lineYieldMpa),
    }
    const fitted = benderLine(lineRail, passes)
    if (!fitted) return { ok: false, faults: [contradiction(bends)] }
    line = { line: fitted, rail: lineRail }
  }
  const readings = all.map((entry) => ({ ...entry.reading, used: used.includes(entry) }))
  const tells = toldBy(from, yieldKnown, line?.line ?? null)
  return { ok: true, calibration: { ...combined, from, tells, readings, line } }
}

/**
 * Test bends that cannot be true, as far as that can be seen without calculating a yield: each by itself, and passes
 * that contradict each other for each of the likely metals.
 *
 * @param tests null stands for one that could not be read
 * @param known what could be read of the rail and of the bender (null: there is none); the rest is not checked
 */
export function testBendFaults(
  tests: readonly (TestBend | null)[],
  known: Partial<Rail>,
  likely: readonly Metal[] = [],
): Fault[] {
  const faults = tests.flatMap((test, index) => {
    const fault = test && testBendFault(test, known)
    return fault ? [{ ...fault, path: [index, ...fault.path] }] : []
  })
  const { section, metal, bender } = known
  const isAllKnown = section && metal && bender !== undefined && !tests.includes(null)
  if (faults.length > 0 || !isAllKnown) return faults
  const rail = { section, metal, bender }
  const bends = readAll(tests as readonly TestBend[], rail)
  const unexplained = bends.flatMap((bend, index) =>
    bend.kind === 'radii' && !hasYield(bend, rail)
      ? [impossibleSpringback(index, bend.readOn ? 'ordinate' : 'restingRadius')]
      : [],
  )
  if (unexplained.length > 0 || !bender || likely.length === 0) return unexplained
  const passes = passesOf(bends)
  const isContradiction =
    passes.length > 0 && likely.every((one) => !benderLine({ section, bender, metal: one }, passes))
  return isContradiction ? [contradiction(bends)] : []
}

function readAll(tests: readonly TestBend[], rail: Rail): ReadBend[] {
  return tests.flatMap((test) => {
    const read = readTestBend(test, rail)
    return 'bend' in read ? [read.bend] : []
  })
}

function passesOf(bends: readonly ReadBend[]) {
  return bends.flatMap((bend) => (bend.kind === 'pass' ? [bend] : []))
}

type KnownYield = YieldReading & { readonly yieldMpa: number }

function hasKnownYield(reading: YieldReading): reading is KnownYield {
  return reading.yieldMpa !== null
}

type Combined = Pick<Calibration, 'effectiveYieldMpa' | 'lowMpa' | 'highMpa' | 'determined' | 'spread' | 'consistent'>

/** Either every reading is bounded on both sides or none is; in the second case they are averaged evenly. */
function combine(readings: readonly YieldReading[]): Combined {
  const known = readings.filter(hasKnownYield)
  if (known.length === 0)
    return {
      effectiveYieldMpa: null,
      lowMpa: null,
      highMpa: null,
      determined: 'poorly',
      spread: null,
      consistent: true,
    }
  const weights = known.map(({ lowMpa, highMpa }) =>
    lowMpa === null || highMpa === null ? 1 : 1 / Math.max(Math.log(highMpa / lowMpa), 1e-9) ** 2,
  )
  const yields = known.map(({ yieldMpa }) => yieldMpa)
  const effectiveYieldMpa = geometricMean(yields, weights)!
  const lowMpa = geometricMean(
    known.map((reading) => reading.lowMpa),
    weights,
  )
  const highMpa = geometricMean(
    known.map((reading) => reading.highMpa),
    weights,
  )
  const half = lowMpa === null || highMpa === null ? Infinity : (highMpa - lowMpa) / 2 / effectiveYieldMpa
  return {
    effectiveYieldMpa,
    lowMpa,
    highMpa,
    determined: half <= WELL ? 'well' : half <= FAIRLY ? 'fairly' : 'poorly',
    spread: { leastMpa: Math.min(...yields), greatestMpa: Math.max(...yields) },
    consistent:
      Math.max(...known.map((reading) => reading.lowMpa ?? 0)) <=
      Math.min(...known.map((reading) => reading.highMpa ?? Number.POSITIVE_INFINITY)),
  }
}

function geometricMean(values: readonly (number | null)[], weights: readonly number[]): number | null {
  let sum = 0
  let total = 0
  for (const [index, value] of values.entries()) {
    if (value === null) return null
    sum += weights[index]! * Math.log(value)
    total += weights[index]!
  }
  return Math.exp(sum / total)
}

function contradiction(bends: readonly ReadBend[]): Fault {
  return {
    path: [bends.findLastIndex(({ kind }) => kind === 'pass')],
    code: 'impossible-test-bend',
    detail: 'the passes contradict each other: deeper ones came out straighter',
    hint: 'check which ordinate belongs to which depth, and that every depth is measured from just touching',
  }
}

function impossibleSpringback(index: number, field: 'restingRadius' | 'ordinate'): Fault {
  return {
    path: [index, field],
    code: 'impossible-test-bend',
    detail: 'no possible yield explains this amount of springback',
    hint: 'check what was measured, and the rail’s width',
  }
}
