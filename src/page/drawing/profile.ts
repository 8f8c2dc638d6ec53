import type { TrackAnswer } from '../../estimate/answer.ts'
import { elevationOn, type GradeStretch, type Profile, profileOfGrades } from '../../track/grade.ts'
import { type Html, html } from '../html.ts'
import { benchLength, formatMetres, type LengthsIn, lengthText } from '../show-length.ts'
import { pathThrough, px } from './view.ts'

export interface ProfiledTrack {
  readonly name: string
  readonly lengthMm: number
  readonly startElevationMm: number
  readonly grades: readonly GradeStretch[]
  /** As it is before anything is dug; left out where it is not known. */
  readonly ground?: readonly Station[] | undefined
}

interface Station {
  readonly atMm: number
  readonly elevationMm: number
}

/** A track with its grades. */
export function profiledTrack({ name, lengthMm, start, grades, earthworks }: TrackAnswer): ProfiledTrack {
  return {
    name,
    lengthMm,
    startElevationMm: start.elevationMm,
    grades: grades.map(({ fromMm, toMm, gradePct, endGradePct }) => ({
      fromMm,
      toMm,
      grade: gradePct / 100,
      ...(endGradePct !== undefined && { endGrade: endGradePct / 100 }),
    })),
    ground: earthworks?.ground.filter(({ atMm }) => atMm <= lengthMm),
  }
}

/** The elevations of a track. */
export function profileOfAnswer(track: TrackAnswer): Profile {
  const { startElevationMm, grades } = profiledTrack(track)
  return profileOfGrades(startElevationMm, grades)
}

/** Straight lines that a vertical curve is drawn as. */
const LINES_OF_A_CURVE = 12

const WIDTH = 880
const HEIGHT = 150
const SIDE = 84
const TOP = 28
const BOTTOM = 30

/** The vertical profile of a track with exaggerated heights, and its ground; null if all of that is level. */
export function profileDrawing(track: ProfiledTrack, id: string, lengthsIn: LengthsIn): Html | null {
  const { grades, lengthMm, ground: soil = [] } = track
  const profile = profileOfGrades(track.startElevationMm, grades)
  const place = (atMm: number) => ({ atMm, elevationMm: elevationOn(profile, atMm) })
  const points = [0, ...grades.map(({ toMm }) => Math.min(toMm, lengthMm))].map(place)
  const line = [0, ...grades.flatMap(stationsOf)].map(place)
  const heights = [...line, ...soil].map(({ elevationMm }) => elevationMm)
  const [low, high] = [Math.min(...heights), Math.max(...heights)]
  if (!(high > low)) return null
  const along = (WIDTH - 2 * SIDE) / lengthMm
  const up = (HEIGHT - TOP - BOTTOM) / (high - low)
  const drawn = ({ atMm, elevationMm }: Station) => ({
    x: SIDE + atMm * along,
    y: HEIGHT - BOTTOM - (elevationMm - low) * up,
  })
  const spots = points.map(drawn)
  const ground = HEIGHT - BOTTOM + 8
  const texts = grades.map(({ grade, endGrade }, index) => {
    const [a, b] = [spots[index]!, spots[index + 1]!]
    const room = endGrade === undefined && b.x - a.x > 52
    return (
      room &&
      html`<text class="grade" x="${px((a.x + b.x) / 2)}" y="${px((a.y + b.y) / 2 - 8)}">${gradeText(100 * grade)}</text>`
    )
  })
  const path = pathThrough(line.map(drawn))
  const first = points[0]!
  const last = points.at(-1)!
  return html`<svg class="plan profile" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="${id}-title">
<title id="${id}-title">Profile of ${track.name}: from ${lengthText(first.elevationMm, lengthsIn)} to ${lengthText(last.elevationMm, lengthsIn)}</title>
<path class="earth" d="${path}V${ground}H${SIDE}Z"/>
<path class="rail" d="${path}"/>
${soil.length > 0 && html`<path class="ground" d="${pathThrough(soil.map(drawn))}"/>`}
<path class="stations" d="${spots.map(({ x, y }) => `M${px(x)} ${px(y)}V${ground + 5}`).join('')}"/>
${texts}
<text x="${SIDE - 8}" y="${px(spots[0]!.y + 4)}" text-anchor="end">${benchText(first.elevationMm, lengthsIn)}</text>
<text x="${WIDTH - SIDE + 8}" y="${px(spots.at(-1)!.y + 4)}">${benchText(last.elevationMm, lengthsIn)}</text>
<text class="small" x="${SIDE}" y="${HEIGHT - 6}">0</text>
<text class="small" x="${WIDTH - SIDE}" y="${HEIGHT - 6}" text-anchor="end">${stationEnd(track.lengthMm, lengthsIn)}</text>
<text class="small" x="${WIDTH / 2}" y="${HEIGHT - 6}" text-anchor="middle">Heights exaggerated ${px(Math.max(1, Math.round(up / along)))} times${soil.length > 0 && '; dashed: the ground'}</text>
</svg>`
}

/** Where the line of a stretch is drawn to: its end, and between them where it is curved. */
function stationsOf({ fromMm, toMm, endGrade }: GradeStretch): number[] {
  const lines = endGrade === undefined ? 1 : LINES_OF_A_CURVE
  return Array.from({ length: lines }, (_, index) => fromMm + ((toMm - fromMm) * (index + 1)) / lines)
}

function gradeText(gradePct: number): string {
  if (gradePct === 0) return 'level'
  return `${gradePct > 0 ? '↗' : '↘'} ${Number(Math.abs(gradePct).toFixed(2))} %`
}

function benchText(mm: number, lengthsIn: LengthsIn): string {
  const both = benchLength(mm, lengthsIn === 'feet' ? 'feet' : 'metric')
  return both.toString()
}

function stationEnd(mm: number, lengthsIn: LengthsIn): string {
  return lengthsIn === 'feet' ? lengthText(mm, 'feet') : formatMetres(mm, 2)
}
