import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import type { GradeStretch } from '../track/grade.ts'
import { elementAt } from '../track/place.ts'
import {
  type CarOnGrades,
  type ShortestVerticalCurve,
  shortestVerticalCurves,
  type VerticalCurveReason,
} from '../track/shortest-vertical-curve.ts'
import type { PlacedElement } from '../track/types.ts'
import type { Finding } from './finding.ts'

interface NamedCar extends CarOnGrades {
  readonly name: string
}

interface GradedTrack {
  readonly name: string
  readonly closed: boolean
  readonly lengthMm: number
  readonly grades: readonly GradeStretch[]
  readonly placed: readonly PlacedElement[]
}

/** A change of grade: its middle, how long it takes, and how much it is, rise over level run; a hump is negative. */
interface GradeChange {
  readonly atMm: number
  readonly curveMm: number
  readonly changePct: number
}

const MISHAPS: Readonly<Record<VerticalCurveReason, string>> = {
  couplers: 'couplers come apart in height',
  belly: 'the middle of the car touches the rails',
  ends: 'the ends of the car touch the rails',
}

/** Changes of grade whose vertical curve is too short for a car, each once, for the car that needs the longest. */
export function verticalCurveFindings(
  tracks: readonly GradedTrack[],
  cars: readonly NamedCar[],
  couplerMm: number | null,
): Finding[] {
  return tracks.flatMap((track) =>
    changesOf(track).flatMap((change): Finding[] => {
      const needed = longestOf(cars, change, couplerMm)
      return needed && exceeds(needed.lengthMm, change.curveMm) ? [findingOf(track, change, needed)] : []
    }),
  )
}

interface Needed extends ShortestVerticalCurve {
  readonly car: string
}

function longestOf(cars: readonly NamedCar[], { changePct }: GradeChange, couplerMm: number | null): Needed | null {
  const all = cars.flatMap((car) =>
    shortestVerticalCurves(changePct, car, couplerMm).map((each): Needed => ({ ...each, car: car.name })),
  )
  return all.length === 0 ? null : all.reduce((a, b) => (b.lengthMm > a.lengthMm ? b : a))
}

/** Vertical curves, and where grades meet without one; round a closed track also where its end meets its start. */
function changesOf({ grades, closed, lengthMm }: GradedTrack): GradeChange[] {
  const curves = grades.flatMap(({ fromMm, toMm, grade, endGrade }) =>
    endGrade === undefined
      ? []
      : [{ atMm: (fromMm + toMm) / 2, curveMm: toMm - fromMm, changePct: 100 * (endGrade - grade) }],
  )
  const sharp = grades.slice(1).map((stretch, index) => {
    const before = grades[index]!
    return { atMm: stretch.fromMm, curveMm: 0, changePct: 100 * (stretch.grade - (before.endGrade ?? before.grade)) }
  })
  const [first, last] = [grades[0], grades.at(-1)]
  const round =
    closed && first && last
      ? [{ atMm: lengthMm, curveMm: 0, changePct: 100 * (first.grade - (last.endGrade ?? last.grade)) }]
      : []
  // The grade at the end of a curve is computed.
  return [...curves, ...sharp, ...round]
    .filter(({ changePct }) => Math.abs(changePct) > 1e-9)
    .sort((a, b) => a.atMm - b.atMm)
}

function findingOf(
  { name, placed }: GradedTrack,
  { atMm, curveMm, changePct }: GradeChange,
  { car, reason, lengthMm }: Needed,
): Finding {
  const there = curveMm === 0 ? 'without a vertical curve' : `over ${formatMm(curveMm)}`
  return {
    rule: 'vertical-curve',
    severity: 'warn',
    track: name,
    element: elementAt(placed, atMm).index,
    message: `At ${formatMm(atMm)} the grade changes by ${Math.abs(changePct).toFixed(2)} % ${there}, a ${changePct < 0 ? 'hump' : 'sag'}: ${MISHAPS[reason]} (${car}). The vertical curve has to be ${formatMm(lengthMm)} long.`,
    measured: curveMm,
    limit: lengthMm,
    unit: 'mm',
    cure: `Give the grade line there a vertical curve of ${formatMm(lengthMm)}, or change the grade less.`,
  }
}
