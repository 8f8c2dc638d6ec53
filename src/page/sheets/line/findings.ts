import type { Finding, PlanFinding, Severity } from '../../../checking/finding.ts'
import type { Estimate } from '../../../estimate/answer.ts'
import type { Patch } from '../../../fitting/json-patch.ts'
import { lettersOf } from '../../../measure/letters.ts'
import { placeInPlan, sign } from '../../drawing/plan-drawing.ts'
import { type Html, html } from '../../html.ts'
import type { WorkedPlan } from '../../pages/worked-plan.ts'
import type { LengthsIn } from '../../show-length.ts'
import { elementNumber, kindName } from '../../words.ts'
import { remedyButton } from './remedy.ts'

const NAMES: Readonly<Record<Severity, string>> = { stop: 'Stop', warn: 'Warning', note: 'Note' }

/** The findings with their cures and the buttons that carry them out. They have letters, as on the drawing, because elements have numbers. */
export function findingList(
  findings: readonly PlanFinding[],
  { estimate: { tracks }, fitted }: Pick<WorkedPlan, 'estimate' | 'fitted'>,
  lengthsIn: LengthsIn,
): Html {
  const button = (patch: Patch) => remedyButton(patch, lengthsIn, fitted.patch.length)
  if (findings.length === 0)
    return html`<p class="sound">No problems found: the plan meets every rule that was checked.</p>`
  return html`<ol class="findings">${findings.map((finding, index) => {
    const { severity, message, cure, remedy, otherRemedies } = finding
    const letter = lettersOf(index)
    return html`<li class="${severity}"${placeInPlan(
      tracks.findIndex(({ name }) => name === finding.track),
      finding.element,
    )}><svg class="plan" viewBox="0 0 28 28" width="28" height="28" aria-hidden="true">${sign(severity, letter, { x: 14, y: 14 })}</svg>
<div><p class="where"><b>${letter}. ${NAMES[severity]}</b> ${place(finding, tracks)}</p><p>${message}</p>${cure && html`<p class="cure">${cure}</p>`}${remedy && button(remedy)}${otherRemedies.length > 0 && html`<details class="no-print"><summary>Other ways</summary>${otherRemedies.map(button)}</details>`}</div></li>`
  })}</ol>`
}

function place({ track, element }: Finding, tracks: Estimate['tracks']): string {
  if (track === null) return 'the whole plan'
  const where = tracks.length > 1 ? `, ${track}` : ''
  if (element === null) return `the whole track${where}`
  const index = tracks.findIndex(({ name }) => name === track)
  const kind = tracks[index]?.elements[element]?.kind
  return `element ${elementNumber(element, index, tracks.length > 1)}${kind ? ` (${kindName(kind).toLowerCase()})` : ''}${where}`
}
