import type { TrackAnswer } from '../../estimate/answer.ts'
import type { GradePoint } from '../../plan/rows/track.ts'
import { elevationAt } from '../../track/grade.ts'
import { type Html, html } from '../html.ts'
import { benchLength, formatMetres, type LengthsIn, lengthText } from '../show-length.ts'
import { pathThrough, px } from './view.ts'

export interface ProfiledTrack {
  readonly name: string
  readonly lengthMm: number
  readonly gradeLine: readonly GradePoint[]
}

/** A track with the elevations at the ends of its grades. */
export function profiledTrack({ name, lengthMm, start, grades }: TrackAnswer): ProfiledTrack {
  const gradeLine = [{ at: 0, elevation: start.elevationMm }]
  for (const { fromMm, toMm, gradePct } of grades)
    gradeLine.push({ at: toMm, elevation: gradeLine.at(-1)!.elevation + ((toMm - fromMm) * gradePct) / 100 })
  return { name, lengthMm, gradeLine }
}

const WIDTH = 880
const HEIGHT = 150
const SIDE = 84
const TOP = 28
const BOTTOM = 30

/** The vertical profile of a track with exaggerated heights; null if it is level throughout. */
export function profileDrawing(track: ProfiledTrack, id: string, lengthsIn: LengthsIn): Html | null {
  const inside = track.gradeLine.filter(({ at: atMm }) => atMm > 0 && atMm < track.lengthMm)
  const stations = [0, ...inside.map(({ at: atMm }) => atMm), track.lengthMm]
  const points = stations.map((atMm) => ({ atMm, elevationMm: elevationAt(track.gradeLine, atMm) }))
  const heights = points.map(({ elevationMm }) => elevationMm)
  const [low, high] = [Math.min(...heights), Math.max(...heights)]
  if (!(high > low)) return null
  const along = (WIDTH - 2 * SIDE) / track.lengthMm
  const up = (HEIGHT - TOP - BOTTOM) / (high - low)
  const spots = points.map(({ atMm, elevationMm }) => ({
    x: SIDE + atMm * along,
    y: HEIGHT - BOTTOM - (elevationMm - low) * up,
  }))
  const ground = HEIGHT - BOTTOM + 8
  const grades = points.slice(1).map((point, index) => {
    const before = points[index]!
    const gradePct = ((point.elevationMm - before.elevationMm) / (point.atMm - before.atMm)) * 100
    const [a, b] = [spots[index]!, spots[index + 1]!]
    const room = b.x - a.x > 52
    return (
      room &&
      html`<text class="grade" x="${px((a.x + b.x) / 2)}" y="${px((a.y + b.y) / 2 - 8)}">${gradeText(gradePct)}</text>`
    )
  })
  const first = points[0]!
  const last = points.at(-1)!
  return html`<svg class="plan profile" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="${id}-title">
<title id="${id}-title">Profile of ${track.name}: from ${lengthText(first.elevationMm, lengthsIn)} to ${lengthText(last.elevationMm, lengthsIn)}</title>
<path class="earth" d="${pathThrough(spots)}V${ground}H${SIDE}Z"/>
<path class="rail" d="${pathThrough(spots)}"/>
<path class="stations" d="${spots.map(({ x, y }) => `M${px(x)} ${px(y)}V${ground + 5}`).join('')}"/>
${grades}
<text x="${SIDE - 8}" y="${px(spots[0]!.y + 4)}" text-anchor="end">${benchText(first.elevationMm, lengthsIn)}</text>
<text x="${WIDTH - SIDE + 8}" y="${px(spots.at(-1)!.y + 4)}">${benchText(last.elevationMm, lengthsIn)}</text>
<text class="small" x="${SIDE}" y="${HEIGHT - 6}">0</text>
<text class="small" x="${WIDTH - SIDE}" y="${HEIGHT - 6}" text-anchor="end">${stationEnd(track.lengthMm, lengthsIn)}</text>
<text class="small" x="${WIDTH / 2}" y="${HEIGHT - 6}" text-anchor="middle">Heights exaggerated ${px(Math.max(1, Math.round(up / along)))} times</text>
</svg>`
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
