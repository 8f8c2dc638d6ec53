import { explainedBest } from './explanations.ts'
import { robustCurve, surveyOf } from './robust-curve.ts'

/** A reading that does not fit the curve, and the value the others suggest. */
export interface Slip {
  readonly station: number
  readonly expectedMm: number
}

/** A slip is at least this many times the resolution. */
const STEPS = 4
/** No reading closer to the end of an unfinished curve is judged. */
const FROM_END = 2
/** At most one thing wrong in this many readings is looked for. */
const READINGS_FOR_EACH = 6

/**
 * Slips among readings taken half a chord apart, by a likelihood test: a curve of level stretches is fitted to all the
 * readings (`FittedCurve`), so that what is left shows how uneven it is laid and read. A station that really is out of
 * place by t changes its own ordinate by t and each neighbour's by −t/2; a slip does not change its neighbours. What
 * makes the readings likeliest is added to the curve, one wrong reading or displaced station at a time; a slip is named
 * when it does so clearly better than a displaced station. A kink (a bad joint) at a station reads like a slip:
 * measuring again tells them apart.
 *
 * In uneven readings small slips cannot be found, nor at the end of an unfinished curve.
 *
 * @param readingsMm null where there is none
 * @param beyond whether the track is straight before the first and after the last reading
 */
export function slipsAmong(
  readingsMm: readonly (number | null)[],
  beyond: { readonly straightBefore: boolean; readonly straightAfter: boolean },
  resolutionMm: number,
): Slip[] {
  const survey = surveyOf(readingsMm, beyond, resolutionMm)
  let curve = robustCurve(survey)
  const clear: boolean[] = []
  for (let left = Math.floor(survey.read / READINGS_FOR_EACH); curve && left > 0; left--) {
    const explained = explainedBest(survey, curve)
    if (!explained) break
    curve = explained.curve
    clear.push(explained.isClear)
  }
  if (!curve) return []
  const { shape, values } = curve
  const found = shape.wrong.flatMap(({ kind, station }, n): Slip[] => {
    const size = values[values.length - shape.wrong.length + n]!
    const isInside =
      (beyond.straightBefore || station >= FROM_END) && (beyond.straightAfter || station < readingsMm.length - FROM_END)
    if (kind === 'place' || !isInside || !clear[n] || Math.abs(size) < STEPS * resolutionMm) return []
    return [{ station, expectedMm: readingsMm[station]! - size }]
  })
  return found.sort((a, b) => a.station - b.station)
}
