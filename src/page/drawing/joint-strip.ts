import type { JointKind } from '../../estimate/answer.ts'
import { SIDES, type Side } from '../../laying/joints.ts'
import { formatFeetInches } from '../../measure/length.ts'
import type { Break, BreakKind, KeepOut } from '../../plan/rows/track.ts'
import { type Html, html } from '../html.ts'
import { formatMetres, type LengthsIn } from '../show-length.ts'
import { textWidth } from './label-places.ts'
import { stationText } from './plan-drawing.ts'
import { roundImperial, roundMetric } from './scale-bar.ts'
import { px } from './view.ts'

/** A track unrolled: all places are stations on its centre line. */
export interface TrackUnrolled {
  readonly name: string
  readonly lengthMm: number
  readonly closed: boolean
  readonly rails: { readonly left: RailUnrolled; readonly right: RailUnrolled }
  readonly breaks: readonly Break[]
  readonly keepOut: readonly KeepOut[]
  /** Stretches that ready-made pieces cover, from end to end. */
  readonly readyMade: readonly { readonly fromMm: number; readonly toMm: number }[]
  /** Length of the longest stick; the scale is chosen for it. */
  readonly stickMm: number
}

export interface RailUnrolled {
  /** `place` is the same in the strip and in its table; left out where there is no table. */
  readonly joints: readonly { readonly stationMm: number; readonly kind: JointKind; readonly place?: string }[]
  /** In order, from one joint to the next. */
  readonly pieces: readonly { readonly fromMm: number; readonly toMm: number; readonly mark: string }[]
}

const WIDTH = 380
const HEIGHT = 106
/** Room for the names of the rails on the left and for half a joint on the right. */
const BEFORE = 34
const BEHIND = 8
const RAIL_Y = { left: 31, right: 69 } as const
const HALF_RAIL = 9
const BAND = { top: 16, bottom: 84 } as const
const RULER_Y = 88

const STICKS_A_ROW = 3
/** A very long track is drawn at a smaller scale. */
const MOST_ROWS = 60
const SLACK_MM = 1e-3

/**
 * Both rails of a track as straight strips to scale, left above right: pieces with their marks, joints, breaks as dashed
 * lines across, stretches without joints hatched, ready-made track with strokes from rail to rail. In several rows, so
 * that it can be read on a narrow screen.
 *
 * @param id begins the ids of its titles; the hatching is `jointStripDefs`
 */
export function jointStrip(track: TrackUnrolled, id: string, lengthsIn: LengthsIn): Html {
  const rows = Math.min(MOST_ROWS, Math.max(1, Math.ceil(track.lengthMm / (STICKS_A_ROW * track.stickMm))))
  const rowMm = track.lengthMm / rows
  const whole = withRepeatedStart(track)
  return html`<div class="strips">${Array.from({ length: rows }, (_, n) => {
    const row = { fromMm: n * rowMm, toMm: (n + 1) * rowMm }
    return stripRow(partIn(row, whole), row, `${id}-${n}`, lengthsIn)
  })}</div>`
}

/** The hatching of stretches without joints and of ready-made track; included once per page. */
export const jointStripDefs = html`<svg class="defs" width="0" height="0" aria-hidden="true"><defs><pattern id="no-joint" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path d="M0 0V7" class="hatch"/></pattern><pattern id="made" width="6" height="6" patternUnits="userSpaceOnUse"><path d="M3 0V6" class="hatch"/></pattern></defs></svg>`

interface Stretch {
  readonly fromMm: number
  readonly toMm: number
}

/** In a loop, joints and breaks at 0 are drawn again at the end. */
function withRepeatedStart(track: TrackUnrolled): TrackUnrolled {
  const { closed, lengthMm, rails, breaks } = track
  if (!closed) return track
  const railOf = ({ pieces, joints }: RailUnrolled): RailUnrolled => {
    const closing = joints.filter(({ stationMm }) => stationMm < SLACK_MM)
    return { pieces, joints: [...joints, ...closing.map((joint) => ({ ...joint, stationMm: lengthMm }))] }
  }
  const again = breaks.filter(({ at: atMm }) => atMm < SLACK_MM).map(({ kind }) => ({ kind, at: lengthMm }))
  return {
    ...track,
    breaks: [...breaks, ...again],
    rails: { left: railOf(rails.left), right: railOf(rails.right) },
  }
}

/** The part of a track in one row; joints and breaks between two rows are in both. */
function partIn(row: Stretch, track: TrackUnrolled): TrackUnrolled {
  const inRow = (mm: number) => mm >= row.fromMm - SLACK_MM && mm <= row.toMm + SLACK_MM
  const railOf = ({ pieces, joints }: RailUnrolled): RailUnrolled => ({
    pieces: pieces.filter((piece) => common(piece, row)),
    joints: joints.filter(({ stationMm }) => inRow(stationMm)),
  })
  return {
    ...track,
    breaks: track.breaks.filter(({ at: atMm }) => inRow(atMm)),
    keepOut: track.keepOut.filter(({ from, to }) => common({ fromMm: from, toMm: to }, row)),
    readyMade: track.readyMade.filter((stretch) => common(stretch, row)),
    rails: { left: railOf(track.rails.left), right: railOf(track.rails.right) },
  }
}

/** @param track only the part in the row */
function stripRow(track: TrackUnrolled, row: Stretch, id: string, lengthsIn: LengthsIn): Html {
  const scale = (WIDTH - BEFORE - BEHIND) / (row.toMm - row.fromMm)
  const xOf = (stationMm: number) => BEFORE + (stationMm - row.fromMm) * scale
  const { breaks, rails } = track
  return html`<svg class="plan strip" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="${id}">
<title id="${id}">${description(track, row, lengthsIn)}</title>
${keepOutShapes(track, row, xOf)}
${track.readyMade.map((stretch) => readyMadeShape(common(stretch, row)!, xOf))}
${SIDES.map((side) => railShapes(track, side, row, xOf))}
<path class="break" d="${breaks.map(({ at: atMm }) => `M${px(xOf(atMm))} 14V${BAND.bottom}`).join('')}"/>
${breakNames(breaks, xOf)}
${SIDES.map((side) => rails[side].joints.map(({ stationMm, kind }) => jointShape(kind, xOf(stationMm), RAIL_Y[side])))}
${ruler(row, scale, xOf, lengthsIn)}
${tapped(rails, xOf)}</svg>`
}

/** Unseen lines over the joints that can be tapped, and are seen where one is chosen. */
function tapped(rails: TrackUnrolled['rails'], xOf: (mm: number) => number): Html | null {
  const lines = SIDES.flatMap((side) =>
    rails[side].joints.map(
      ({ stationMm, place }) =>
        place !== undefined && html`<path data-at="${place}" d="M${px(xOf(stationMm))} ${RAIL_Y[side] - 14}v28"/>`,
    ),
  )
  return lines.some((line) => line) ? html`<g class="tapped">${lines}</g>` : null
}

/** The part of a stretch within another; null if it is negligible. */
function common(a: Stretch, b: Stretch): Stretch | null {
  const [fromMm, toMm] = [Math.max(a.fromMm, b.fromMm), Math.min(a.toMm, b.toMm)]
  return toMm - fromMm > SLACK_MM ? { fromMm, toMm } : null
}

/** The reason is written in the row with most of the stretch; it may extend beyond the stretch if there is room. */
function keepOutShapes(track: TrackUnrolled, row: Stretch, xOf: (mm: number) => number): Html[] {
  let occupiedTo = BEFORE
  return track.keepOut.map(({ from: fromMm, to: toMm, reason }) => {
    const onTrack = { fromMm, toMm: Math.min(toMm, track.lengthMm) }
    const shown = common(onTrack, row)
    if (!shown) return html``
    const [from, to] = [xOf(shown.fromMm), xOf(shown.toMm)]
    const hatched = html`<rect class="keep-out" x="${px(from)}" y="${BAND.top}" width="${px(to - from)}" height="${BAND.bottom - BAND.top}" fill="url(#no-joint)"/>`
    const half = textWidth(reason ?? '', SMALL) / 2
    const x = Math.min(Math.max((from + to) / 2, BEFORE + half), WIDTH - half)
    const most = shown.toMm - shown.fromMm >= (onTrack.toMm - onTrack.fromMm) / 2
    if (reason === null || !most || x - half < occupiedTo) return hatched
    occupiedTo = x + half + 4
    return html`${hatched}<text class="small over" x="${px(x)}" y="54">${reason}</text>`
  })
}

function readyMadeShape({ fromMm, toMm }: Stretch, xOf: (mm: number) => number): Html {
  const [from, to] = [xOf(fromMm), xOf(toMm)]
  const top = RAIL_Y.left + HALF_RAIL
  return html`<rect x="${px(from)}" y="${top}" width="${px(to - from)}" height="${RAIL_Y.right - HALF_RAIL - top}" fill="url(#made)"/>`
}

const SMALL = 11
const MARK = 12.5

function railShapes(track: TrackUnrolled, side: Side, row: Stretch, xOf: (mm: number) => number): Html {
  const y = RAIL_Y[side]
  const [from, to] = [xOf(row.fromMm), xOf(row.toMm)]
  const ends = track.closed ? [] : [0, track.lengthMm].filter((mm) => mm >= row.fromMm && mm <= row.toMm + SLACK_MM)
  const marks = track.rails[side].pieces.map(({ mark, ...piece }) => {
    const shown = common(piece, row)
    const room = shown ? xOf(shown.toMm) - xOf(shown.fromMm) : 0
    return (
      shown &&
      textWidth(mark, MARK) + 8 < room &&
      html`<text class="piece-mark" x="${px(xOf(shown.fromMm) + room / 2)}" y="${y + 4.5}">${mark}</text>`
    )
  })
  return html`<text class="small" x="0" y="${y + 4}">${side}</text><rect class="unrolled" x="${px(from)}" y="${y - HALF_RAIL}" width="${px(to - from)}" height="${2 * HALF_RAIL}"/><path class="rail" d="M${px(from)} ${y - HALF_RAIL}H${px(to)}M${px(from)} ${y + HALF_RAIL}H${px(to)}${ends.map((mm) => `M${px(xOf(mm))} ${y - HALF_RAIL}V${y + HALF_RAIL}`).join('')}"/>${marks}`
}

const BREAK_NAMES: Readonly<Record<BreakKind, string>> = {
  turnout: 'turnout',
  insulated: 'insulated',
  'bridge-end': 'bridge end',
  'expansion-joint': 'expansion',
}

/** The names of breaks, as far as there is room. */
function breakNames(breaks: readonly Break[], xOf: (mm: number) => number): Html[] {
  let occupiedTo = 0
  return breaks.map(({ at: atMm, kind }) => {
    const name = BREAK_NAMES[kind]
    const half = textWidth(name, SMALL) / 2
    const x = Math.min(Math.max(xOf(atMm), half), WIDTH - half)
    if (x - half < occupiedTo) return html``
    occupiedTo = x + half + 2
    return html`<text class="small middle" x="${px(x)}" y="10.5">${name}</text>`
  })
}

/** A joint of a rail at this height: each kind has a shape of its own. */
export function jointShape(kind: JointKind, x: number, y: number): Html {
  const at = px(x)
  if (kind === 'insulated')
    return html`<rect class="joint open" x="${px(x - 3.5)}" y="${y - 12}" width="7" height="24"/>`
  if (kind === 'expansion') return html`<path class="joint" d="M${px(x - 3)} ${y - 12}v24M${px(x + 3)} ${y - 12}v24"/>`
  if (kind === 'turnout') return html`<path class="joint full" d="M${at} ${y - 12}l6 12l-6 12l-6-12z"/>`
  return html`<path class="joint" d="M${at} ${y - 12}v24"/>`
}

/** Between the numbers of a ruler, in the order they are tried; its widest number takes about 45. */
const RULER_STEPS = [90, 120, 180, 240]
const NARROWEST_STEP = 50

function ruler(row: Stretch, scale: number, xOf: (mm: number) => number, lengthsIn: LengthsIn): Html {
  const steps = RULER_STEPS.map((wide) => (lengthsIn === 'feet' ? roundImperial : roundMetric)(wide / scale))
  const step = steps.find(({ mm }) => mm * scale >= NARROWEST_STEP) ?? steps.at(-1)!
  const first = Math.ceil(row.fromMm / step.mm - SLACK_MM)
  const last = Math.floor(row.toMm / step.mm + SLACK_MM)
  const stations = Array.from({ length: Math.max(0, last - first + 1) }, (_, n) => (first + n) * step.mm)
  const texts = stations.map((mm) => {
    const text = mm === 0 ? '0' : stationText(mm, lengthsIn)
    const x = Math.min(xOf(mm), WIDTH - textWidth(text, SMALL) / 2)
    return html`<text class="small middle" x="${px(x)}" y="${RULER_Y + 16}">${text}</text>`
  })
  return html`<path class="stations" d="M${px(xOf(row.fromMm))} ${RULER_Y}H${px(xOf(row.toMm))}${stations.map((mm) => `M${px(xOf(mm))} ${RULER_Y}v5`).join('')}"/>${texts}`
}

function description({ name, rails, keepOut, readyMade }: TrackUnrolled, row: Stretch, lengthsIn: LengthsIn): string {
  const say = (mm: number) => (lengthsIn === 'feet' ? formatFeetInches(mm) : formatMetres(mm, 2))
  const joints = SIDES.map((side) => {
    const places = rails[side].joints.map(({ stationMm }) => say(stationMm))
    return `${side} rail: ${places.length === 0 ? 'no joint' : `joints at ${places.join(', ')}`}`
  })
  const withoutJoints = keepOut.map(
    ({ from: fromMm, to: toMm, reason }) =>
      `no joints allowed from ${say(fromMm)} to ${say(toMm)}${reason ? `, ${reason}` : ''}`,
  )
  const made = readyMade.map(({ fromMm, toMm }) => `ready-made track from ${say(fromMm)} to ${say(toMm)}`)
  return `${name} from ${say(row.fromMm)} to ${say(row.toMm)}; ${[...joints, ...withoutJoints, ...made].join('; ')}.`
}
