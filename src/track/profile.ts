import { LENGTH_SLACK_MM } from '../measure/counting.ts'
import { type Answer, component, length, list, number, word } from '../plan/fields/answer.ts'
import { elevationOn, type GradeStretch, gradeOn, type Profile } from './grade.ts'
import { PROFILE_POINT, type ProfilePoint } from './vertical-curve.ts'

const EXTREME = component('ProfileExtreme', 'A summit or a sag.', {
  kind: word(['summit', 'sag']),
  atMm: length('Station; where the track is level there for some length, the station at which it becomes level, mm.'),
  elevationMm: length(),
})

export const PROFILE = component('Profile', 'Elevations along a track.', {
  points: list(
    PROFILE_POINT,
    'The start, each station at which the grade or its rate of change changes, and the end. Where two grades meet, gradePct is that which begins.',
  ),
  extremes: list(EXTREME, 'Where the track stops rising and begins to fall, or the other way round, within the track.'),
  steepestPct: number('The steepest grade, up or down, percent.'),
  rulingPct: number(
    'The steepest grade, up or down, that is longer than standards.shortGradeLength, percent; the steepest of all if that is not given.',
  ),
})

export type ProfileAnswer = Answer<typeof PROFILE>
type Extreme = Answer<typeof EXTREME>

/** The profile of a track of `lengthMm`. A grade up to `shortGradeMm` long does not rule. */
export function profileAnswer(
  profile: Profile,
  grades: readonly GradeStretch[],
  { lengthMm, shortGradeMm }: { readonly lengthMm: number; readonly shortGradeMm: number | null },
): ProfileAnswer {
  const ends = grades.map(({ toMm }) => toMm).slice(0, -1)
  const last = grades.at(-1)
  const end = {
    ...levelAt(profile, lengthMm),
    gradePct: 100 * (last?.endGrade ?? last?.grade ?? 0),
  }
  return {
    points: [...[0, ...ends].map((atMm) => levelAt(profile, atMm)), end],
    extremes: extremesOf(profile, grades),
    steepestPct: steepestPct(grades),
    rulingPct: rulingPct(grades, shortGradeMm),
  }
}

/** Elevation and grade at a station. */
export function levelAt(profile: Profile, atMm: number): ProfilePoint {
  return { atMm, elevationMm: elevationOn(profile, atMm), gradePct: 100 * gradeOn(profile, atMm) }
}

/** Stations at which the sign of the grade changes, a level stretch between left aside. */
function extremesOf(profile: Profile, grades: readonly GradeStretch[]): Extreme[] {
  const extremes: Extreme[] = []
  let before = 0
  /** Where the track stopped rising or falling. */
  let levelFromMm = 0
  const follows = (sign: number, fromMm: number, toMm: number) => {
    if (sign === 0) return
    if (before !== 0 && sign !== before) {
      const atMm = Math.min(levelFromMm, fromMm)
      extremes.push({ kind: before > 0 ? 'summit' : 'sag', atMm, elevationMm: elevationOn(profile, atMm) })
    }
    before = sign
    levelFromMm = toMm
  }
  for (const { fromMm, toMm, grade, endGrade = grade } of grades) {
    const turns = grade * endGrade < 0
    const turnsAtMm = turns ? fromMm + ((toMm - fromMm) * grade) / (grade - endGrade) : toMm
    follows(Math.sign(grade === 0 ? endGrade : grade), fromMm, turnsAtMm)
    if (turns) follows(Math.sign(endGrade), turnsAtMm, toMm)
  }
  return extremes
}

function steepestOf({ grade, endGrade = grade }: GradeStretch): number {
  return 100 * Math.max(Math.abs(grade), Math.abs(endGrade))
}

function steepestPct(grades: readonly GradeStretch[]): number {
  return Math.max(0, ...grades.map(steepestOf))
}

/**
 * The steepest grade that is kept up for more than a length: the greatest of the least steep grades of all stretches of the
 * track that are so long. Up and down count alike, but not together.
 */
function rulingPct(grades: readonly GradeStretch[], shortGradeMm: number | null): number {
  if (shortGradeMm === null) return steepestPct(grades)
  const candidates = [...new Set(grades.map(steepestOf))].sort((a, b) => b - a)
  return candidates.find((pct) => longestAtLeast(grades, pct) > shortGradeMm + LENGTH_SLACK_MM) ?? 0
}

/** The longest stretch of neighbouring grades all of which reach `pct`, the same way, somewhere. */
function longestAtLeast(grades: readonly GradeStretch[], pct: number): number {
  let longestMm = 0
  let reachedMm = 0
  let direction = 0
  for (const stretch of grades) {
    const { fromMm, toMm, grade, endGrade = grade } = stretch
    const sign = Math.sign(grade + endGrade)
    const steep = steepestOf(stretch) >= pct && sign !== 0
    reachedMm = steep ? (sign === direction ? reachedMm : 0) + toMm - fromMm : 0
    direction = steep ? sign : 0
    longestMm = Math.max(longestMm, reachedMm)
  }
  return longestMm
}
