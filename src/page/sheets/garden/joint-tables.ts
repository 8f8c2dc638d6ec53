import type { ExpansionAnswer, JointAnswer, JointKind } from '../../../estimate/answer.ts'
import type { RailUnrolled } from '../../drawing/joint-strip.ts'
import { attributes, type Html, html } from '../../html.ts'
import {
  benchLength,
  gapLength,
  gardenLength,
  type LengthsIn,
  ordinateLength,
  temperatureText,
} from '../../show-length.ts'
import { counted, elementNumber } from '../../words.ts'
import { pieceMarks } from '../saw/piece-marks.ts'
import type { SheetContext } from '../sheet.ts'
import { editLink } from '../sheet-links.ts'
import { gapAtMm, gapQuestion, railTemperatureC } from './gap-question.ts'
import { jointStrips, unrolled } from './joint-strips.ts'

const KINDS: Readonly<Record<JointKind, string>> = {
  joiner: 'joiner',
  closing: 'joiner, loop closure',
  join: 'next track',
  turnout: 'turnout, with its own joiners',
  insulated: 'insulated',
  'bridge-end': 'joiner, bridge end',
  expansion: 'expansion joint',
}

/**
 * Where rails meet, track by track, and the gap to leave in each joint. In both units are what is measured first and what
 * is left open; the rest is in millimetres, so that a joint takes one line.
 */
export function jointTables(context: SheetContext): Html {
  const { worked, lengthsIn, railAt } = context
  const { tracks, joints, expansion, readyMade } = worked.estimate
  const { strips, key } = jointStrips(worked, lengthsIn)
  const marks = pieceMarks(worked.estimate)
  const gaps = joints.some(({ gapMm }) => gapMm !== null) ? gapsAt(expansion, railAt, lengthsIn) : null
  return html`${
    expansion
      ? html`${gapQuestion(context, expansion)}${weather(expansion, lengthsIn)}`
      : html`<p class="hint">Enter the temperatures under ${editLink(context.links, 'Joints and temperatures', 'climate')} to get the gap for each joint. The gaps are then taken off the pieces.</p>`
  }
<p class="hint">${expansion && 'The gaps are already taken off the pieces in the cut list. '}Each new track drawn straight, starting at the left: both rails with the marks of the pieces${readyMade && readyMade.stretches.length > 0 && ' and of ready-made pieces'}.</p>
${key}
<div class="tracks-of-joints">${tracks.map(({ name, state, lengthMm }, index) => {
    if (state !== 'new') return null
    const ofTrack = joints.filter(({ track }) => track === name)
    const { rails } = unrolled(worked, index, marks)
    const { start, end } = worked.plan.tracks[index]!
    const legs = { start: start?.from?.turnout ?? null, end: end?.to?.turnout ?? null }
    const table = (side: 'left' | 'right') => {
      const ofRail = ofTrack.filter(({ rail }) => rail === side)
      return jointTable(name, side, withLegs(rails[side], legs, lengthMm), ofRail, gaps, lengthsIn)
    }
    return html`<div${isShort(ofTrack) && html` class="short"`}>${tracks.length > 1 && html`<h3>${name}</h3>`}
${strips[index]}
${ofTrack.length === 0 ? html`<p>No joints: each rail is one piece.</p>` : html`<div class="two-rails">${table('left')}${table('right')}</div>`}
${expansion && clamped(expansion, name, (element) => elementNumber(element, index, tracks.length > 1), lengthsIn)}</div>`
  })}</div>`
}

/** With the turnouts at whose legs the track begins and ends, as what lies beyond its ends. */
function withLegs(
  rail: RailUnrolled,
  { start, end }: { readonly start: string | null; readonly end: string | null },
  lengthMm: number,
): RailUnrolled {
  const at = (mark: string | null, fromMm: number, toMm: number) => (mark === null ? [] : [{ mark, fromMm, toMm }])
  const [before, behind] = [at(start, Number.NEGATIVE_INFINITY, 0), at(end, lengthMm, Number.POSITIVE_INFINITY)]
  return { ...rail, pieces: [...before, ...rail.pieces, ...behind] }
}

/** Whether the joints of both rails find room in half the width, one rail below the other. */
function isShort(joints: readonly JointAnswer[]): boolean {
  return joints.length > 0 && joints.length <= MOST_SHORT
}

const MOST_SHORT = 8

/** The gaps to show: at the temperature of the rail and when coldest. */
interface GapsToShow {
  readonly railC: number
  readonly of: (joint: JointAnswer) => number | null
}

function gapsAt(expansion: ExpansionAnswer | null, railAt: string | null, lengthsIn: LengthsIn): GapsToShow | null {
  if (!expansion) return null
  const railC = railTemperatureC(expansion, railAt, lengthsIn) ?? expansion.layingC
  return { railC, of: (joint) => gapAtMm(joint, expansion, railC) }
}

function jointTable(
  track: string,
  side: 'left' | 'right',
  { joints: places, pieces }: RailUnrolled,
  joints: readonly JointAnswer[],
  gaps: GapsToShow | null,
  lengthsIn: LengthsIn,
): Html {
  return html`<div class="scroll" role="region" aria-label="Joints of ${track}, ${side} rail" tabindex="0"><table class="figures joints-table">
<caption>${side === 'left' ? 'Left' : 'Right'} rail</caption>
<thead><tr><th scope="col">From start</th><th scope="col">Along the rail</th><th scope="col">Between</th>${gaps && html`<th scope="col">Gap at ${temperatureText(gaps.railC, lengthsIn)}</th><th scope="col">When coldest</th>`}</tr></thead>
<tbody>${joints.map((joint, n) => row(joint, places[n]?.place ?? null, pieces, gaps, lengthsIn))}</tbody></table></div>`
}

function row(
  joint: JointAnswer,
  place: string | null,
  pieces: RailUnrolled['pieces'],
  gaps: GapsToShow | null,
  lengthsIn: LengthsIn,
): Html {
  const { stationMm, atMm, kind, gapColdestMm } = joint
  const once = lengthsIn === 'both' ? 'metric' : lengthsIn
  const gap = (mm: number | null, shown: LengthsIn) => (mm === null ? '–' : mm === 0 ? 'none' : gapLength(mm, shown))
  const ends = endsAt(pieces, stationMm, kind === 'closing')
  // A join at the leg of a turnout names it.
  const isNamed = kind === 'joiner' || (kind === 'join' && ends.some((text) => text.includes(BETWEEN)))
  const between = [...ends, ...(isNamed ? [] : [KINDS[kind]])].join(', ')
  return html`<tr${attributes({ 'data-at': place })}><th scope="row">${gardenLength(stationMm, lengthsIn)}</th><td>${gardenLength(atMm, once)}</td><td${kind === 'insulated' && html` class="wraps"`}>${between}</td>${gaps && html`<td><b>${gap(gaps.of(joint), lengthsIn)}</b></td><td>${gap(gapColdestMm, once)}</td>`}</tr>
`
}

/** The marks of the pieces that meet at a joint; around a closed track the last and the first. */
function endsAt(pieces: RailUnrolled['pieces'], stationMm: number, closing: boolean): string[] {
  const isSame = (mm: number) => Math.abs(mm - stationMm) < SAME_PLACE_MM
  const before = pieces.find(({ toMm }) => isSame(toMm)) ?? (closing ? pieces.at(-1) : undefined)
  const after = pieces.find(({ fromMm }) => isSame(fromMm))
  return [[before?.mark, after?.mark].filter((mark) => mark !== undefined).join(BETWEEN)].filter((text) => text !== '')
}

const BETWEEN = ' – '
const SAME_PLACE_MM = 1e-3

function weather(expansion: ExpansionAnswer, lengthsIn: LengthsIn): Html {
  const { joints, held, layingC, coldestC, hottestC, growthPerMetreMm, longestLengthMm } = expansion
  const { heldStressHottestMpa: stressMpa, heldForceHottestN: forceN, bucklingLengthMm } = expansion
  const fixing = joints === 'sliding' ? 'slides in its joiners' : held ? 'clamped and held' : 'clamped, free to move'
  return html`<dl class="facts">
<div><dt>Rail</dt><dd>${fixing}</dd></div>
<div><dt>Laid at</dt><dd>${temperatureText(layingC, lengthsIn)}</dd></div>
<div><dt>From coldest to hottest</dt><dd>${temperatureText(coldestC, lengthsIn)} to ${temperatureText(hottestC, lengthsIn)} in the sun</dd></div>
${growthPerMetreMm !== null && html`<div><dt>Growth per ${lengthsIn === 'feet' ? 'yard' : 'metre'}</dt><dd>${gapLength(growthPerMetreMm * (lengthsIn === 'feet' ? 0.9144 : 1), lengthsIn)}</dd></div>`}
${longestLengthMm !== null && html`<div><dt>${joints === 'sliding' ? 'Longest piece' : 'Longest length between expansion joints'}</dt><dd>${gardenLength(longestLengthMm, lengthsIn)}</dd></div>`}
${stressMpa !== null && html`<div><dt>${held ? 'Compression when hottest' : 'Compression when hottest, if it were held'}</dt><dd>${stressMpa.toFixed(0)} MPa, ${forceN!.toFixed(0)} N per rail</dd></div>`}
${held && bucklingLengthMm !== null && html`<div><dt>Lateral support at least every</dt><dd>${benchLength(bucklingLengthMm, lengthsIn)}</dd></div>`}
</dl>`
}

/** Lengths of rail that expand as one, and how far curves move sideways. */
function clamped(
  { lengths, breathing }: ExpansionAnswer,
  track: string,
  numberOf: (element: number) => string,
  lengthsIn: LengthsIn,
): Html | null {
  const own = lengths.filter((length) => length.track === track)
  const arcs = breathing.filter((arc) => arc.track === track)
  if (own.length === 0) return null
  return html`<p>Expands as one length: ${own.map(
    ({ fromMm, toMm, growthMm, expansionJointsAtMm }, index) =>
      html`${index > 0 && '; '}from ${gardenLength(fromMm, lengthsIn)} to ${gardenLength(toMm, lengthsIn)}, ${ordinateLength(growthMm, lengthsIn)} from coldest to hottest${expansionJointsAtMm?.length !== 0 && html`, <b>${moreJoints(expansionJointsAtMm)}</b>`}`,
  )}.</p>
${
  arcs.length > 0 &&
  html`<p>Leave curves room to move sideways: ${arcs.map(
    ({ element, outwardMm, inwardMm }, index) =>
      html`${index > 0 && '; '}element ${numberOf(element)}: ${ordinateLength(outwardMm, lengthsIn)} outward, ${ordinateLength(inwardMm, lengthsIn)} inward`,
  )}.</p>`
}`
}

function moreJoints(atMm: readonly number[] | null): string {
  return atMm === null ? 'far too long' : `${counted(atMm.length, 'expansion joint')} missing`
}
