import type { Finding, Severity } from '../../checking/finding.ts'
import { MM_PER_FOOT } from '../../measure/length.ts'
import { lettersOf } from '../../measure/letters.ts'
import { poseOn } from '../../track/place.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import { attributes, type Html, html } from '../html.ts'
import { formatMetres, type LengthsIn, lengthText } from '../show-length.ts'
import { bridgeMarks } from './bridge-marks.ts'
import { type DrawnTrack, drawnPlan, type PlanToDraw } from './drawn-plan.ts'
import { type Anchor, OccupiedSpace, placeLabel, textWidth } from './label-places.ts'
import { pegMarks } from './peg-marks.ts'
import { obstacleNames, roomMarks } from './room-marks.ts'
import { type RoundLength, roundImperial, roundMetric, scaleBar } from './scale-bar.ts'
import { directions, type Sheet, shortened } from './sheet.ts'
import { foulingMarks, turnoutMarks } from './turnout-marks.ts'
import { FOOT, MARGIN, pathThrough, px, type Spot, type View } from './view.ts'

/** Rails closer than this on the drawing are drawn as one line. */
const RAILS_APART = 1.6
/** Ties closer than this on the drawing are not drawn. */
const TIES_APART = 3.2

/**
 * The plan to scale as SVG: both rails, ties, stations, tangent points, numbers and radii, findings, a scale bar. Colours
 * and line styles are in the style sheet; everything that has a colour also has its own shape. Null: nothing to draw.
 *
 * @param shown what the ids in it begin with, as two drawings on a page have different ones; the view to draw, all of the plan if omitted; what is drawn beneath the rails
 */
export function planDrawing(
  plan: PlanToDraw,
  findings: readonly Finding[],
  lengthsIn: LengthsIn,
  { id = 'plan', given, beneath }: { readonly id?: string; readonly given?: View; readonly beneath?: Html } = {},
): Html | null {
  const drawn = drawnPlan(plan, given)
  if (!drawn) return null
  const { view, tracks } = drawn
  const occupied = new OccupiedSpace(view.width, view.height)
  occupied.occupy({ x: 0, y: view.height - FOOT + 6, width: view.width, height: FOOT })
  const bandWidth = Math.max(7, (plan.gaugeMm + plan.headWidthMm) * 2 * view.scale)
  for (const { centre } of tracks) occupied.occupyLine(centre, bandWidth + 2)

  for (const { outline } of plan.obstacles ?? []) occupied.occupyLine(outline.map(view.spotOf), 3)

  const apart = (plan.gaugeMm + plan.headWidthMm) * view.scale
  const title = plan.title ?? 'Plan'
  const sheet = { view, occupied, lengthsIn, bandWidth }
  const marks = findingMarks(sheet, tracks, findings)
  const ends = tracks.map((track) => endMarks(sheet, track, tracks.length > 1))
  const turnouts = tracks.map(({ track }) => turnoutMarks(sheet, track))
  const elements = tracks.map((track, index) =>
    elementLabels(sheet, track, index, tracks.length > 1 ? `${index + 1}.` : ''),
  )
  const stations = tracks.map((track) => stationMarks(sheet, track))
  const obstacles = obstacleNames(view, occupied, plan)
  const pegs = pegMarks(view, occupied, plan)
  return html`<svg class="plan" viewBox="0 0 ${view.width} ${view.height}" role="img" aria-labelledby="${id}-title ${id}-text"${placeOnSheet(view, lengthsIn)}>
<title id="${id}-title">${title}, drawn to scale</title>
<desc id="${id}-text">${description(plan, lengthsIn)}</desc>
${grid(view, lengthsIn)}
${roomMarks(view, plan)}
${tracks.map((track) => stubs(sheet, track))}
${tracks.map((track) => readyMadeEdges(sheet, track))}
${tracks.flatMap(({ centre, otherLegs }) =>
  [centre, ...otherLegs.map((leg) => leg.centre)].map(
    (line) => html`<path class="bed" d="${pathThrough(line)}" stroke-width="${px(bandWidth)}"/>`,
  ),
)}
${beneath}${marks.lines}
${tracks.map((track) => linesByState(track, view.scale, apart))}
${tracks.map((track) => pieceEnds(sheet, track))}
${turnouts}${bridgeMarks(sheet, plan)}${foulingMarks(view, plan)}
${stations}${tapped(view, tracks)}${elements}${ends}${obstacles}${pegs}${marks.signs}
${scaleBar(view.scale, lengthsIn, 16, view.height - 38)}
${apart < RAILS_APART && html`<text class="small" x="${view.width - 16}" y="${view.height - 14}" text-anchor="end">At this scale, both rails are drawn as one line.</text>`}
</svg>`
}

/** For the script of the page: units of the drawing per millimetre, where the origin is, and the units to read places in. */
function placeOnSheet({ scale, spotOf }: View, lengthsIn: LengthsIn): Html {
  const { x, y } = spotOf({ xMm: 0, yMm: 0 })
  return attributes({ 'data-sheet': `${Number(scale.toPrecision(9))} ${px(x)} ${px(y)}`, 'data-units': lengthsIn })
}

/** More would make the page too large; its rows can still be chosen in the tables. */
const MOST_TAPPED = 400

/** The place of an element in its plan, by which the drawing, the form and the tables find each other. */
export function placeInPlan(track: number, element: number | null): Html | null {
  return element === null ? null : attributes({ 'data-at': `${track}.${element}` })
}

/** Unseen lines along the elements that can be tapped, and are seen where one is chosen. */
function tapped(view: View, tracks: readonly DrawnTrack[]): Html | null {
  if (tracks.reduce((sum, { track }) => sum + track.placed.length, 0) > MOST_TAPPED) return null
  return html`<g class="tapped">${tracks.map(({ track }, index) =>
    track.placed.map(
      (element) => html`<path${placeInPlan(index, element.index)} d="${pathThrough(spotsAlong(view, element))}"/>`,
    ),
  )}</g>`
}

const STATE_WORDS = { new: '', existing: ', existing', lifted: ', to be lifted' } as const

function description(plan: PlanToDraw, lengthsIn: LengthsIn): string {
  const lengthOf = (mm: number) => (lengthsIn === 'feet' ? lengthText(mm, 'feet') : formatMetres(mm, 2))
  const tracks = plan.tracks.map(({ name, placed, closed, state = 'new', readyMade = [] }) => {
    const length = lengthOf(placed.at(-1)?.toMm ?? 0)
    const madeMm = readyMade.reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0)
    const made = madeMm > 0 ? `, ${lengthOf(madeMm)} of it ready-made track` : ''
    return `${name}: ${placed.length} element${placed.length === 1 ? '' : 's'}, ${length}, ${closed ? 'a closed loop' : 'open'}${STATE_WORDS[state]}${made}`
  })
  return `Seen from above. ${tracks.join('; ')}.`
}

/** Track that is not new is drawn fainter, and dashed if it is to be lifted. */
function linesByState(drawn: DrawnTrack, scale: number, apart: number): Html {
  const { state = 'new' } = drawn.track
  const lines = trackLines(drawn, scale, apart)
  return state === 'new' ? lines : html`<g class="state-${state}">${lines}</g>`
}

/** The other legs of its turnouts. */
function otherLegLines({ otherLegs }: DrawnTrack, apart: number): Html[] {
  return otherLegs.map(({ centre, left, right }) =>
    apart < RAILS_APART
      ? html`<path class="rail one" d="${pathThrough(centre)}"/>`
      : html`<path class="rail" d="${pathThrough(left)}"/><path class="rail" d="${pathThrough(right)}"/>`,
  )
}

function trackLines(drawn: DrawnTrack, scale: number, apart: number): Html {
  return html`${ownLines(drawn, scale, apart)}${otherLegLines(drawn, apart)}`
}

function ownLines({ track, centre, rails }: DrawnTrack, scale: number, apart: number): Html {
  const tie = track.tieSpacingMm * scale
  const centrePath = pathThrough(centre)
  const ties =
    tie >= TIES_APART &&
    html`<path class="ties" d="${centrePath}" stroke-width="${px(apart * 1.75)}" stroke-dasharray="${px(tie * 0.4)} ${px(tie * 0.6)}" stroke-dashoffset="${px(tie * 0.2)}"/>`
  if (apart < RAILS_APART) return html`${ties}<path class="rail one" d="${centrePath}"/>`
  return html`${ties}<path class="rail" d="${pathThrough(rails.left)}"/><path class="rail" d="${pathThrough(rails.right)}"/>`
}

/** Ready-made track has an edge on both sides; the bed is drawn over the middle. */
function readyMadeEdges({ view, bandWidth }: Sheet, { track }: DrawnTrack): Html[] {
  return (track.readyMade ?? []).map(({ element, fromMm, toMm }) => {
    const spots = spotsAlong(view, track.placed[element]!, fromMm, toMm)
    return html`<path class="ready-made" d="${pathThrough(spots)}" stroke-width="${px(bandWidth + 4)}"/>`
  })
}

/** A ring at each end of a ready-made piece. */
function pieceEnds({ view }: Sheet, { track }: DrawnTrack): Html[] {
  return (track.readyMade ?? []).flatMap(({ element, endsMm }) =>
    endsMm.map((mm) => {
      const { x, y } = view.spotOf(poseOn(track.placed[element]!, mm))
      return html`<circle class="piece-end" cx="${px(x)}" cy="${px(y)}" r="2.8"/>`
    }),
  )
}

/** A grid of a round length, for reading distances anywhere on the sheet. */
function grid(view: View, lengthsIn: LengthsIn): Html | null {
  const step = gridStep(view.scale, lengthsIn)
  const apart = step.mm * view.scale
  if (!(apart > 12)) return null
  const origin = view.spotOf({ xMm: 0, yMm: 0 })
  const lines: string[] = []
  const bottom = view.height - FOOT + 2
  for (let x = positiveRest(origin.x, apart); x < view.width; x += apart) lines.push(`M${px(x)} 0V${px(bottom)}`)
  for (let y = positiveRest(origin.y, apart); y < bottom; y += apart) lines.push(`M0 ${px(y)}H${view.width}`)
  return html`<path class="grid" d="${lines.join('')}"/><text class="small" x="${view.width - 16}" y="${view.height - 30}" text-anchor="end">Squares of ${step.name}</text>`
}

/** The side of a square of the grid. */
export function gridStep(scale: number, lengthsIn: LengthsIn): RoundLength {
  return (lengthsIn === 'feet' ? roundImperial : roundMetric)(120 / scale)
}

function positiveRest(value: number, step: number): number {
  return ((value % step) + step) % step
}

/** Places next to an element, starting with the outside of a curve and the middle. */
function anchorsBeside(view: View, element: PlacedElement, parts: readonly number[]): Anchor[] {
  const outside = element.turnedRad > 0 ? -1 : 1
  return [outside, -outside].flatMap((side) =>
    parts.map((part) => {
      const pose = poseOn(element, element.fromMm + element.lengthMm * part)
      const { left } = directions(pose)
      return { spot: view.spotOf(pose), aside: { x: left.x * side, y: left.y * side } }
    }),
  )
}

const MIDDLE_OUTWARDS = [0.5, 0.38, 0.62, 0.26, 0.74]
const TEXT = 12.5

/**
 * A number for each element that has room for one, with several tracks after the track's number (`2.3`); the radius of
 * curves; tangent points as strokes across the track.
 */
function elementLabels(sheet: Sheet, { track }: DrawnTrack, index: number, prefix: string): Html {
  const { view, occupied, lengthsIn, bandWidth } = sheet
  const tangentPoints = track.placed
    .slice(track.closed ? 0 : 1)
    .map(({ start }) => strokeAcross(view, start, bandWidth / 2 + 2))
  const longestFirst = [...track.placed].sort((a, b) => b.lengthMm - a.lengthMm)
  const labels = longestFirst.map((element) => {
    const number = `${prefix}${element.index + 1}`
    const anchors = anchorsBeside(view, element, MIDDLE_OUTWARDS)
    const near = bandWidth / 2
    const distances = [near + 4, near + 14, near + 28, near + 46, near + 70]
    const radius = element.kind === 'arc' ? `R ${lengthText(1 / Math.abs(element.startCurvature), lengthsIn)}` : ''
    const badge = Math.max(19, textWidth(number, TEXT) + 9)
    const full = { width: badge + (radius ? 6 + textWidth(radius, TEXT) : 0), height: 19 }
    const withText = placeLabel(occupied, full, anchors, distances)
    const place = withText ?? placeLabel(occupied, { width: badge, height: 19 }, anchors, distances)
    if (!place) return null
    const { box, anchor } = place
    // The number is at the end of the label that is nearer to the track.
    const numberLast = anchor.aside.x < 0
    const at = { x: numberLast ? box.x + box.width - badge / 2 : box.x + badge / 2, y: box.y + box.height / 2 }
    const far = Math.hypot(at.x - anchor.spot.x, at.y - anchor.spot.y) > badge / 2 + near + 14
    const text = { x: numberLast ? at.x - badge / 2 - 5 : at.x + badge / 2 + 5, anchor: numberLast ? 'end' : 'start' }
    return html`${far && html`<path class="leader" d="M${px(anchor.spot.x)} ${px(anchor.spot.y)}L${px(at.x)} ${px(at.y)}"/>`}<rect class="badge"${placeInPlan(index, element.index)} x="${px(at.x - badge / 2)}" y="${px(box.y)}" width="${px(badge)}" height="19" rx="9.5"/><text class="number" x="${px(at.x)}" y="${px(at.y + 4.5)}">${number}</text>${withText && radius && html`<text x="${px(text.x)}" y="${px(at.y + 4.5)}" text-anchor="${text.anchor}">${radius}</text>`}`
  })
  return html`<g class="elements"><path class="joint" d="${tangentPoints.join('')}"/>${labels}</g>`
}

function strokeAcross(view: View, pose: Pose, reach: number): string {
  const { x, y } = view.spotOf(pose)
  const { left } = directions(pose)
  return `M${px(x + left.x * reach)} ${px(y + left.y * reach)}L${px(x - left.x * reach)} ${px(y - left.y * reach)}`
}

/** Ticks at round distances from the start, with a text where there is room. */
function stationMarks(sheet: Sheet, { track }: DrawnTrack): Html {
  const { view, occupied, lengthsIn, bandWidth } = sheet
  const step = (lengthsIn === 'feet' ? roundImperial : roundMetric)(130 / view.scale)
  const near = bandWidth / 2
  const ticks: string[] = []
  const texts: Html[] = []
  let count = 1
  for (const element of track.placed)
    for (; count * step.mm <= element.toMm && count <= MOST_STATIONS; count++) {
      const pose = poseOn(element, count * step.mm)
      const { x, y } = view.spotOf(pose)
      const { left } = directions(pose)
      for (const side of [near, -near])
        ticks.push(
          `M${px(x + left.x * side)} ${px(y + left.y * side)}l${px(left.x * 5 * Math.sign(side))} ${px(left.y * 5 * Math.sign(side))}`,
        )
      const text = stationText(count * step.mm, lengthsIn)
      const size = { width: textWidth(text, 10.5), height: 11 }
      const sides = [-1, 1].map((side) => ({ spot: { x, y }, aside: { x: left.x * side, y: left.y * side } }))
      const place = placeLabel(occupied, size, sides, [near + 7])
      if (place)
        texts.push(html`<text x="${px(place.box.x + size.width / 2)}" y="${px(place.box.y + 9)}">${text}</text>`)
    }
  return html`<g class="stations"><path d="${ticks.join('')}"/>${texts}</g>`
}

const MOST_STATIONS = 3000

/** The text of a station: round metres or millimetres, feet or inches. */
export function stationText(mm: number, lengthsIn: LengthsIn): string {
  if (lengthsIn === 'feet') return mm >= MM_PER_FOOT ? `${px(mm / MM_PER_FOOT)} ft` : `${px(mm / 25.4)} in`
  return mm >= 1000 ? `${px(mm / 1000)} m` : `${px(mm)} mm`
}

/** An arrow at the start of a track, with its name if there are several, and a bar across an open end. */
function endMarks(sheet: Sheet, { track }: DrawnTrack, named: boolean): Html | null {
  const { view, occupied, bandWidth } = sheet
  const first = track.placed[0]
  const last = track.placed.at(-1)
  if (!first || !last) return null
  const { along, left } = directions(first.start)
  const at = view.spotOf(first.start)
  const reach = bandWidth / 2 + 7
  const corner = (ahead: number, aside: number) =>
    `${px(at.x + along.x * ahead + left.x * aside)} ${px(at.y + along.y * ahead + left.y * aside)}`
  const arrow = html`<path class="start" d="M${corner(0, reach)}L${corner(0, -reach)}M${corner(1, reach - 2)}L${corner(13, reach - 2)}M${corner(8, reach - 6)}L${corner(13, reach - 2)}L${corner(8, reach + 2)}"/>`
  occupied.occupy({ x: at.x - reach, y: at.y - reach, width: 2 * reach, height: 2 * reach })
  const text = named ? `Start of ${shortened(track.name)}` : 'Start'
  const size = { width: textWidth(text, TEXT), height: 15 }
  const anchors = [1, -1].map((side) => ({ spot: at, aside: { x: left.x * side, y: left.y * side } }))
  anchors.push({ spot: at, aside: { x: -along.x, y: -along.y } }, { spot: at, aside: { x: 0.7, y: 0.7 } })
  const place = placeLabel(occupied, size, anchors, [reach + 3, reach + 16, reach + 32])
  const end = !track.closed && !track.joinsExisting.end && strokeAcross(view, last.end, reach - 1)
  return html`<g class="ends">${arrow}${end && html`<path class="stop-block" d="${end}"/>`}${place && html`<text class="track-name" x="${px(place.box.x)}" y="${px(place.box.y + 12)}">${text}</text>`}</g>`
}

/** Dashed stubs of existing track at the ends that join it. */
function stubs({ view, bandWidth }: Sheet, { track }: DrawnTrack): Html[] {
  const first = track.placed[0]
  const last = track.placed.at(-1)
  if (!first || !last) return []
  const stub = (pose: Pose, direction: 1 | -1) => {
    const { x, y } = view.spotOf(pose)
    const { along } = directions(pose)
    const reach = direction * MARGIN * 0.7
    return html`<path class="existing" d="M${px(x)} ${px(y)}l${px(along.x * reach)} ${px(along.y * reach)}" stroke-width="${px(bandWidth)}"/>`
  }
  return [
    ...(track.joinsExisting.start ? [stub(first.start, -1)] : []),
    ...(track.joinsExisting.end ? [stub(last.end, 1)] : []),
  ]
}

/** Elements with a finding are overlaid in the line style of its severity; a sign of its shape has the finding's letter. */
function findingMarks(
  { view, occupied, bandWidth }: Sheet,
  tracks: readonly DrawnTrack[],
  findings: readonly Finding[],
): { lines: Html[]; signs: Html[] } {
  const lines: Html[] = []
  const signs: Html[] = []
  for (const [index, finding] of findings.entries()) {
    const onTrack = tracks.findIndex(({ track }) => track.name === finding.track)
    const drawn = tracks[onTrack]
    const element =
      drawn && (finding.element === null ? drawn.track.placed.at(-1) : drawn.track.placed[finding.element])
    if (!drawn || !element) continue
    if (finding.element !== null) {
      const spots = spotsAlong(view, element)
      lines.push(
        html`<path class="found ${finding.severity}" d="${pathThrough(spots)}" stroke-width="${px(bandWidth + 6)}"/>`,
      )
    }
    const anchors = anchorsBeside(view, element, finding.element === null ? [1, 0.97] : MIDDLE_OUTWARDS)
    const place = placeLabel(occupied, { width: 24, height: 24 }, anchors, [
      bandWidth / 2 + 5,
      bandWidth / 2 + 20,
      bandWidth / 2 + 40,
    ])
    if (!place) continue
    const at = placeInPlan(onTrack, finding.element)
    signs.push(sign(finding.severity, lettersOf(index), { x: place.box.x + 12, y: place.box.y + 12 }, at))
  }
  return { lines, signs }
}

function spotsAlong(view: View, element: PlacedElement, fromMm = element.fromMm, toMm = element.toMm): Spot[] {
  const turns = Math.abs(element.startCurvature) + Math.abs(element.endCurvature)
  const chords = Math.min(400, Math.max(1, Math.ceil((turns * (toMm - fromMm)) / 0.15)))
  return Array.from({ length: chords + 1 }, (_, chord) =>
    view.spotOf(poseOn(element, fromMm + ((toMm - fromMm) * chord) / chords)),
  )
}

/** An octagon for a stop, a triangle for a warning, a circle for a note: distinguishable without colour. */
export function sign(severity: Severity, letter: string, { x, y }: Spot, at: Html | null = null): Html {
  const shape =
    severity === 'note'
      ? html`<circle cx="${px(x)}" cy="${px(y)}" r="10.5"/>`
      : html`<path d="${severity === 'stop' ? octagon(x, y, 11.5) : `M${px(x)} ${px(y - 12)}l12.5 21.5h-25z`}"/>`
  return html`<g class="sign ${severity}"${at}>${shape}<text x="${px(x)}" y="${px(y + (severity === 'warn' ? 6.5 : 4.2))}">${letter}</text></g>`
}

function octagon(x: number, y: number, reach: number): string {
  const half = reach * Math.tan(Math.PI / 8)
  const diagonal = reach - half
  return `M${px(x - half)} ${px(y - reach)}h${px(2 * half)}l${px(diagonal)} ${px(diagonal)}v${px(2 * half)}l${px(-diagonal)} ${px(diagonal)}h${px(-2 * half)}l${px(-diagonal)} ${px(-diagonal)}v${px(-2 * half)}z`
}
