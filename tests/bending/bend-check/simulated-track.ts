export interface Point {
  readonly x: number
  readonly y: number
}

/**
 * A track by its points half a chord apart, one more at either end than there are stations, so that the string can be
 * held at the first and the last station too.
 */
export type Track = readonly Point[]

/** The track on which the string shows these ordinates: at a station it turns by 2·asin(v/s), to the left when positive. */
export function trackFromReadings(readingsMm: readonly number[], spacingMm: number): Track {
  const points: Point[] = [
    { x: -spacingMm, y: 0 },
    { x: 0, y: 0 },
  ]
  let heading = 0
  for (const v of readingsMm) {
    heading += 2 * Math.asin(v / spacingMm)
    const last = points.at(-1)!
    points.push({ x: last.x + spacingMm * Math.cos(heading), y: last.y + spacingMm * Math.sin(heading) })
  }
  return points
}

/** A track of varying curvature (per mm, left positive), points every `spacingMm` along it, by midpoints of 1/50 of that. */
export function trackOfCurvature(curvatureAt: (atMm: number) => number, stations: number, spacingMm: number): Track {
  const parts = 50
  const step = spacingMm / parts
  const points: Point[] = [{ x: 0, y: 0 }]
  let [x, y, heading, at] = [0, 0, 0, -spacingMm]
  for (let n = 1; n <= (stations + 1) * parts; n++) {
    const curvature = curvatureAt(at + step / 2)
    x += step * Math.cos(heading + (curvature * step) / 2)
    y += step * Math.sin(heading + (curvature * step) / 2)
    heading += curvature * step
    at += step
    if (n % parts === 0) points.push({ x, y })
  }
  return points
}

/** What the string shows at each station: how far it stands off the line through its neighbours, left turns positive. */
export function readingsOf(track: Track): number[] {
  return track.slice(1, -1).map((point, n) => {
    const { along, length } = stringAt(track, n)
    const [dx, dy] = [point.x - track[n]!.x, point.y - track[n]!.y]
    return (along.y * dx - along.x * dy) / length
  })
}

/** The track with every station moved away from the centre of a left turn, square to the string held there. */
export function thrown(track: Track, throwsMm: readonly number[]): Track {
  return track.map((point, n) => {
    const throwMm = throwsMm[n - 1]
    if (n === 0 || throwMm === undefined) return point
    const { along, length } = stringAt(track, n - 1)
    return { x: point.x + (throwMm * along.y) / length, y: point.y - (throwMm * along.x) / length }
  })
}

function stringAt(track: Track, station: number) {
  const [from, to] = [track[station]!, track[station + 2]!]
  const along = { x: to.x - from.x, y: to.y - from.y }
  return { along, length: Math.hypot(along.x, along.y) }
}
