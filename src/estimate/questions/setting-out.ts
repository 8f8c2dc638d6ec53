import { arcPegs, stationsAlong } from '../../bending/setting-out/arc.ts'
import { easementPegs } from '../../bending/setting-out/easement.ts'
import { LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import { formatMm } from '../../measure/length.ts'
import { type Answer, component, count, length, list, nullable, number, text, word } from '../../plan/fields/answer.ts'
import { ASSUMPTION } from '../../plan/fields/assumption.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { TURNS } from '../../plan/rows/track.ts'
import { headingAfterDeg } from '../../track/closure.ts'
import { poseOn, reversalMm, turnedBetween } from '../../track/place.ts'
import type { PlacedElement } from '../../track/types.ts'
import { preparePlan } from '../plan.ts'
import { type LaidTrack, layTrack } from '../track/laid-track.ts'

/** Default distance between pegs: close enough to bend a lath around. */
export const USUAL_INTERVAL_MM = 500

const OFFSET = component('PegOffset', 'Distance along a line, and offset at right angles to it.', {
  alongMm: length(),
  offsetMm: length(),
})

const PEG = component('Peg', 'A peg on the centre line.', {
  stationMm: length('Distance along the track from its start, measured horizontally, mm.'),
  atMm: length('Distance along the curve from its beginning, mm.'),
  xMm: length(),
  yMm: length(),
  headingDeg: number('Heading of the track there, degrees, in [0, 360).'),
  radiusMm: nullable(length('Radius of the centre line there, mm; null where it is straight.')),
  tangent: nullable(
    OFFSET,
    'Distance along the tangent at the beginning of the curve, and offset from it, positive to the side of `turn`; null where the curve has turned by more than 90°.',
  ),
  longChord: nullable(
    OFFSET,
    'Distance along the straight line from the beginning of the curve to its end, and offset from it, positive away from the side of `turn`; null if the curve turns by more than 180°.',
  ),
  deflectionDeg: number(
    'Angle at the beginning of the curve from its tangent to the line of sight to the peg, degrees, positive to the side of `turn`, in (−180, 180].',
  ),
  chordFromStartMm: length(),
  chordFromPreviousMm: length(),
})

export type Peg = Answer<typeof PEG>

const SETTING_OUT_CURVE = component(
  'SettingOutCurve',
  'An arc or easement with its pegs from beginning to end, both included.',
  {
    element: count(),
    kind: word(['arc', 'easement']),
    label: nullable(text()),
    turn: word(TURNS),
    fromMm: length(),
    toMm: length(),
    lengthMm: length(),
    pegs: list(PEG),
  },
)

export type SettingOutCurve = Answer<typeof SETTING_OUT_CURVE>

const SETTING_OUT_TRACK = component('SettingOutTrack', 'The curves of a track, in order along it.', {
  name: text(),
  label: nullable(text()),
  curves: list(SETTING_OUT_CURVE),
})

export const SETTING_OUT_ANSWER = component('SettingOut', 'The pegs of every curve of a plan.', {
  intervalMm: length(),
  tracks: list(SETTING_OUT_TRACK),
  assumptions: list(ASSUMPTION, 'Each field is a JSON Pointer into the request.'),
})

export type SettingOut = Answer<typeof SETTING_OUT_ANSWER>

type PegOnCurve = Omit<Peg, 'stationMm' | 'xMm' | 'yMm' | 'headingDeg'>

/**
 * The pegs of every curve of new and existing track: both its ends, and the round stations of its track in between
 * (station 0 is the track's start). The first and the last chord of a curve are therefore mostly shorter than the
 * others.
 *
 * @param input a plan without faults (see `planFaults`)
 * @param intervalMm along the centre line, > 0; `USUAL_INTERVAL_MM` when left out
 */
export function settingOut(input: PlanInput, intervalMm: number = USUAL_INTERVAL_MM): SettingOut {
  const { plan, assumptions } = preparePlan(input)
  return {
    intervalMm,
    tracks: plan.tracks.map((track) => {
      const laid = layTrack(track, plan)
      const pegged = track.state === 'lifted' ? [] : laid.placed
      const curves = pegged.filter(isCurve).map((element) => curveOf(element, laid, intervalMm))
      return { name: track.name, label: track.label, curves }
    }),
    // Rail, sticks and standards move no peg.
    assumptions: assumptions.filter(({ field }) => /^\/tracks\/\d+\/start$/.test(field)),
  }
}

/** The assumption where no interval is given. */
export const USUAL_INTERVAL_SHOWN = formatMm(USUAL_INTERVAL_MM)

type Curve = PlacedElement & { readonly kind: 'arc' | 'easement' }

function isCurve(element: PlacedElement): element is Curve {
  return element.kind === 'arc' || element.kind === 'easement'
}

function curveOf(element: Curve, track: LaidTrack, intervalMm: number): SettingOutCurve {
  const { index, kind, label = null, fromMm, toMm, lengthMm, turnedRad } = element
  const stations = stationsAlong(lengthMm, intervalMm, toRoundStationMm(fromMm, intervalMm))
  const pegs = kind === 'arc' ? pegsOfArc(element, stations) : pegsOfEasement(element, stations)
  return {
    element: index,
    kind,
    label,
    turn: turnedRad < 0 ? 'right' : 'left',
    fromMm,
    toMm,
    lengthMm,
    pegs: pegs.map((peg): Peg => {
      const stationMm = peg.atMm === lengthMm ? toMm : fromMm + peg.atMm
      const { xMm, yMm, headingRad } = poseOn(element, stationMm)
      const headingDeg = headingAfterDeg(track.startHeadingDeg, headingRad - track.start.headingRad)
      return { stationMm, xMm, yMm, headingDeg, ...peg }
    }),
  }
}

/** Distance from a station to the next round one; 0 where it is round itself, except for rounding. */
function toRoundStationMm(stationMm: number, intervalMm: number): number {
  const rest = piecesToCover(stationMm, intervalMm) * intervalMm - stationMm
  return rest > LENGTH_SLACK_MM ? rest : 0
}

function pegsOfArc({ lengthMm, startCurvature }: PlacedElement, stations: readonly number[]): PegOnCurve[] {
  const radiusMm = Math.abs(1 / startCurvature)
  return arcPegs(radiusMm, lengthMm, stations).map((peg) => ({ ...peg, radiusMm }))
}

function pegsOfEasement(element: PlacedElement, stations: readonly number[]): PegOnCurve[] {
  const { startCurvature, endCurvature, lengthMm, turnedRad } = element
  const side = turnedRad < 0 ? -1 : 1
  const pegs = easementPegs(side * startCurvature, side * endCurvature, lengthMm, stations)
  const end = pegs.at(-1)!
  const longMm = end.chordFromStartMm
  const hasLongChord = longMm > 0 && mostTurnedRad(element, lengthMm) <= Math.PI
  return pegs.map(
    ({ atMm, curvaturePerMm, alongMm, offsetMm, deflectionDeg, chordFromStartMm, chordFromPreviousMm }) => ({
      atMm,
      radiusMm: curvaturePerMm === 0 ? null : 1 / Math.abs(curvaturePerMm),
      tangent: mostTurnedRad(element, atMm) <= Math.PI / 2 ? { alongMm, offsetMm } : null,
      longChord: hasLongChord
        ? {
            alongMm: (alongMm * end.alongMm + offsetMm * end.offsetMm) / longMm,
            offsetMm: (alongMm * end.offsetMm - offsetMm * end.alongMm) / longMm,
          }
        : null,
      deflectionDeg,
      chordFromStartMm,
      chordFromPreviousMm,
    }),
  )
}

/** The most an easement has turned from its beginning, up to `atMm`: a reversing one turns back again. */
function mostTurnedRad(element: PlacedElement, atMm: number): number {
  const { fromMm } = element
  const turned = (toMm: number) => Math.abs(turnedBetween(element, fromMm, toMm))
  const reversal = reversalMm(element)
  const before = reversal !== null && reversal < fromMm + atMm ? turned(reversal) : 0
  return Math.max(before, turned(fromMm + atMm))
}
