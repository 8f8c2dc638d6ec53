import type { JointKind } from '../../../estimate/answer.ts'
import {
  jointShape,
  jointStrip,
  jointStripDefs,
  type RailUnrolled,
  type TrackUnrolled,
} from '../../drawing/joint-strip.ts'
import { type Html, html } from '../../html.ts'
import type { WorkedPlan } from '../../pages/worked-plan.ts'
import type { LengthsIn } from '../../show-length.ts'
import { laidPieces } from '../saw/laid-pieces.ts'
import { type PieceMarks, pieceMarks } from '../saw/piece-marks.ts'

/** Joint diagrams of the new tracks in the order of the plan, null for other tracks, and the key to the symbols. */
export function jointStrips(worked: WorkedPlan, lengthsIn: LengthsIn): { strips: (Html | null)[]; key: Html } {
  const marks = pieceMarks(worked.estimate)
  const strips = worked.estimate.tracks.map(({ state }, index) =>
    state === 'new' ? jointStrip(unrolled(worked, index, marks), `strip-${index}`, lengthsIn) : null,
  )
  return { strips, key: html`${jointStripDefs}${keyOf(worked)}` }
}

/**
 * A track with the stations of its pieces and joints. Between two joints there is a ready-made piece or a turnout that
 * is not made of the rails of the track, the same on both rails, or else the next piece of the cut list.
 */
export function unrolled({ plan, estimate }: WorkedPlan, index: number, marks: PieceMarks): TrackUnrolled {
  const { breaks = [], keepOut = [], closed = false } = plan.tracks[index]!
  const { name, lengthMm, elements } = estimate.tracks[index]!
  const { sticks } = estimate.cutting
  const made = laidPieces(estimate).filter((piece) => piece.track === index)
  const madeAt = (mm: number) => made.find(({ fromMm, toMm }) => mm > fromMm && mm < toMm)
  const whole = elements.filter(({ turnout }) => turnout && (turnout.onBillAs !== null || turnout.rails))
  const turnoutAt = (mm: number) => whole.find(({ fromMm, toMm }) => mm > fromMm && mm < toMm)?.turnout
  const railOf = (side: 'left' | 'right'): RailUnrolled => {
    const joints = estimate.joints.filter(({ track, rail }) => track === name && rail === side)
    const inside = joints.map(({ stationMm }) => stationMm).filter((mm) => mm > END_MM && mm < lengthMm - END_MM)
    const meetings = [0, ...inside, lengthMm]
    const cut = sticks
      .flatMap((stick) => stick.pieces)
      .filter(({ track, rail, turnout }) => track === name && rail === side && !turnout)
      .sort((a, b) => a.fromMm - b.fromMm)
      .values()
    return {
      joints: joints.map((joint, n) => ({ ...joint, place: jointPlace(index, side, n) })),
      pieces: meetings.slice(1).map((toMm, n) => {
        const fromMm = meetings[n]!
        const midMm = (fromMm + toMm) / 2
        const mark = madeAt(midMm)?.mark ?? turnoutAt(midMm)?.name ?? marks.get(cut.next().value!)!
        return { fromMm, toMm, mark }
      }),
    }
  }
  return {
    name,
    lengthMm,
    closed,
    breaks,
    keepOut: keepOut.map(({ reason = null, ...stretch }) => ({ ...stretch, reason })),
    rails: { left: railOf('left'), right: railOf('right') },
    readyMade: made,
    stickMm: Math.max(...[...sticks, ...(estimate.readyMade?.panels ?? [])].map((each) => each.lengthMm)),
  }
}

/** What marks a joint of a rail in its strip and in its table; joints are counted along the rail. */
export function jointPlace(track: number, side: 'left' | 'right', joint: number): string {
  return `${side}-${track}.${joint}`
}

/** A joint this close to an end of the track is at the end. */
const END_MM = 1e-6

const KEY: readonly { readonly kinds: readonly JointKind[]; readonly name: string }[] = [
  { kinds: ['joiner', 'closing', 'join', 'bridge-end'], name: 'joiner' },
  { kinds: ['insulated'], name: 'insulated joiner' },
  { kinds: ['expansion'], name: 'expansion joint' },
  { kinds: ['turnout'], name: 'turnout' },
]

function keyOf({ plan, estimate }: WorkedPlan): Html {
  const tracks = plan.tracks.filter((_, index) => estimate.tracks[index]!.state === 'new')
  const shapes = KEY.filter(({ kinds }) => estimate.joints.some(({ kind }) => kinds.includes(kind))).map(
    ({ kinds, name }) => ({ shape: jointShape(kinds[0]!, 16, 14), name }),
  )
  if (tracks.some(({ breaks = [] }) => breaks.length > 0))
    shapes.push({ shape: html`<path class="break" d="M16 0V28"/>`, name: 'both rails divided' })
  if (tracks.some(({ keepOut = [] }) => keepOut.length > 0))
    shapes.push({
      shape: html`<rect class="keep-out" y="4" width="32" height="20" fill="url(#no-joint)"/>`,
      name: 'no joints allowed',
    })
  if ((estimate.readyMade?.stretches.length ?? 0) > 0)
    shapes.push({ shape: html`<rect y="4" width="32" height="20" fill="url(#made)"/>`, name: 'ready-made track' })
  if (shapes.length === 0) return html``
  return html`<p class="key strip-key">${shapes.map(
    ({ shape, name }) =>
      html`<span><svg class="plan" viewBox="0 0 32 28" aria-hidden="true">${shape}</svg>${name}</span>`,
  )}</p>`
}
