import type { ExpansionAnswer, JointAnswer, JointKind } from '../../../estimate/answer.ts'
import { formatCelsius } from '../../../measure/temperature.ts'
import { type Html, html } from '../../html.ts'
import type { WorkedPlan } from '../../pages/worked-plan.ts'
import { benchLength, gardenLength, type LengthsIn, ordinateLength } from '../../show-length.ts'
import { counted, elementNumber } from '../../words.ts'
import { jointStrips } from './joint-strips.ts'

const KINDS: Readonly<Record<JointKind, string>> = {
  joiner: 'joiner',
  closing: 'joiner, loop closure',
  join: 'joiner, to existing track',
  turnout: 'turnout, with its own joiners',
  insulated: 'insulated joiner',
  'bridge-end': 'joiner, bridge end',
  expansion: 'expansion joint',
}

/** Where rails meet, track by track, and the gap to leave in each joint. */
export function jointTables(worked: WorkedPlan, lengthsIn: LengthsIn): Html {
  const { tracks, joints, expansion, readyMade } = worked.estimate
  const { strips, key } = jointStrips(worked, lengthsIn)
  const gaps = joints.some(({ gapMm }) => gapMm !== null)
  return html`${
    expansion
      ? weather(expansion, lengthsIn)
      : html`<p class="hint">Enter the temperatures under “Joints and temperatures” to get the gap for each joint. The gaps are then taken off the pieces.</p>`
  }
<p class="hint">Each new track drawn straight, starting at the left: both rails with the marks of the pieces in the cut list${readyMade && readyMade.stretches.length > 0 && ' and of ready-made pieces'}.</p>
${key}
${tracks.map(({ name, state }, index) => {
  if (state !== 'new') return null
  const ofTrack = joints.filter(({ track }) => track === name)
  return html`${tracks.length > 1 && html`<h3>${name}</h3>`}
${strips[index]}
${ofTrack.length === 0 ? html`<p>No joints: each rail is one piece.</p>` : jointTable(name, ofTrack, gaps, lengthsIn)}
${expansion && clamped(expansion, name, (element) => elementNumber(element, index, tracks.length > 1), lengthsIn)}`
})}`
}

function jointTable(track: string, joints: readonly JointAnswer[], gaps: boolean, lengthsIn: LengthsIn): Html {
  const [laid, coldest] = ['Gap when laid', 'Gap when coldest'].map(
    (name) => gaps && html`<th scope="col">${name}</th>`,
  )
  return html`<div class="scroll" role="region" aria-label="Joints of ${track}" tabindex="0"><table class="figures joints-table">
<thead><tr><th scope="col">Distance from start</th><th scope="col">Rail</th>${laid}<th scope="col">Joint</th><th scope="col">Distance along rail</th>${coldest}</tr></thead>
<tbody>${joints.map((joint) => row(joint, gaps, lengthsIn))}</tbody></table></div>`
}

function row(
  { stationMm, rail, atMm, kind, gapMm, gapColdestMm }: JointAnswer,
  gaps: boolean,
  lengthsIn: LengthsIn,
): Html {
  const gap = (mm: number | null) => (mm === null ? '–' : mm === 0 ? 'none' : ordinateLength(mm, lengthsIn))
  return html`<tr><th scope="row">${gardenLength(stationMm, lengthsIn)}</th><td>${rail}</td>${gaps && html`<td><b>${gap(gapMm)}</b></td>`}<td>${KINDS[kind]}</td><td>${gardenLength(atMm, lengthsIn)}</td>${gaps && html`<td>${gap(gapColdestMm)}</td>`}</tr>
`
}

function weather(expansion: ExpansionAnswer, lengthsIn: LengthsIn): Html {
  const { joints, held, layingC, coldestC, hottestC, growthPerMetreMm, longestLengthMm } = expansion
  const { heldStressHottestMpa: stressMpa, heldForceHottestN: forceN, bucklingLengthMm } = expansion
  const fixing = joints === 'sliding' ? 'slides in its joiners' : held ? 'clamped and held' : 'clamped, free to move'
  return html`<dl class="facts">
<div><dt>Rail</dt><dd>${fixing}</dd></div>
<div><dt>Laid at</dt><dd>${formatCelsius(layingC)}</dd></div>
<div><dt>From coldest to hottest</dt><dd>${formatCelsius(coldestC)} to ${formatCelsius(hottestC)} in the sun</dd></div>
${growthPerMetreMm !== null && html`<div><dt>Growth per metre</dt><dd>${ordinateLength(growthPerMetreMm, lengthsIn)}</dd></div>`}
${longestLengthMm !== null && html`<div><dt>${joints === 'sliding' ? 'Longest piece' : 'Longest length between expansion joints'}</dt><dd>${gardenLength(longestLengthMm, lengthsIn)}</dd></div>`}
${stressMpa !== null && html`<div><dt>${held ? 'Compression when hottest' : 'Compression when hottest, if it were held'}</dt><dd>${stressMpa.toFixed(0)} MPa, ${forceN!.toFixed(0)} N per rail</dd></div>`}
${held && bucklingLengthMm !== null && html`<div><dt>Lateral support at least every</dt><dd>${benchLength(bucklingLengthMm, lengthsIn)}</dd></div>`}
</dl>
<p class="hint">These are rail temperatures: on the day you lay it, measure the rail, not the air. The gaps are already taken off the pieces in the cut list.</p>`
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
