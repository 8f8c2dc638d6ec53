import type { TrackAnswer } from '../../../estimate/answer.ts'
import { sameLength } from '../../../measure/counting.ts'
import { elevationOn } from '../../../track/grade.ts'
import { profileOfAnswer } from '../../drawing/profile.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, gardenLength, type LengthsIn } from '../../show-length.ts'

/** Levels that people own: 4 ft, and 1 m. */
const LEVELS_MM = { feet: 1219.2, metric: 1000 } as const

/** A station, and how much higher the track is one level further along. */
export interface LevelReading {
  readonly atMm: number
  readonly elevationMm: number
  readonly gradePct: number
  /** Null where the level would reach beyond the end of the track. */
  readonly riseMm: number | null
}

/** What a level must read at each place where the grade changes, and where the plan asks for it. */
export function levelReadings(track: TrackAnswer, levelMm: number): LevelReading[] {
  const profile = profileOfAnswer(track)
  const places = [...track.profile.points, ...track.levels].sort((a, b) => a.atMm - b.atMm)
  return places
    .filter(({ atMm }, index) => index === 0 || !sameLength(atMm, places[index - 1]!.atMm))
    .map(({ atMm, elevationMm, gradePct }) => {
      const onTrack = atMm + levelMm <= track.lengthMm
      return {
        atMm,
        elevationMm,
        gradePct,
        riseMm: onTrack ? elevationOn(profile, atMm + levelMm) - elevationMm : null,
      }
    })
}

/** How to check the grade with a level; null for a track that is level and asks for nothing. */
export function levelTable(track: TrackAnswer, lengthsIn: LengthsIn): Html | null {
  if (track.profile.steepestPct === 0 && track.levels.length === 0) return null
  const levelMm = LEVELS_MM[lengthsIn === 'feet' ? 'feet' : 'metric']
  const level = lengthsIn === 'feet' ? '4-ft level' : '1-m level'
  return html`<h4>Grade</h4>
<div class="scroll" role="region" aria-label="Grade of ${track.name}" tabindex="0"><table class="figures levels one-line">
<thead><tr><th scope="col">From start</th><th scope="col">Height</th><th scope="col">Grade from here</th><th scope="col">Block under the ${level}</th><th scope="col">at its</th></tr></thead>
<tbody>${levelReadings(track, levelMm).map((reading) => row(reading, lengthsIn))}</tbody></table></div>
<p class="hint">Hold a ${level} along the rail with one end at the distance given and the other further along. It is level with a block of this height under the end that is named. A level that shows percent must read the grade.</p>`
}

function row({ atMm, elevationMm, gradePct, riseMm }: LevelReading, lengthsIn: LengthsIn): Html {
  const grade = Number(gradePct.toFixed(2))
  const block = riseMm === null ? '–' : benchLength(Math.abs(riseMm), lengthsIn)
  return html`<tr><th scope="row">${gardenLength(atMm, lengthsIn)}</th><td>${benchLength(elevationMm, lengthsIn)}</td><td>${grade} %</td><td>${block}</td><td>${riseMm !== null && lowerEnd(riseMm)}</td></tr>
`
}

/** Which end of the level is the lower one. */
function lowerEnd(riseMm: number): string {
  if (Math.abs(riseMm) < 0.005) return ''
  return riseMm > 0 ? 'near end' : 'far end'
}
