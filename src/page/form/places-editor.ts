import { type Html, html } from '../html.ts'
import {
  fieldRow,
  fieldsBut,
  foldedGroup,
  hasFaultUnder,
  inner,
  isFilledIn,
  type Placed,
  preservedField,
} from './controls.ts'
import { moveEditor } from './move-track.ts'

/** Where a track starts, and where its end must be. */
export function placesEditor(track: Placed): Html {
  const start = inner(track, 'start')
  const end = inner(track, 'end')
  const at = inner(end, 'at')
  const from = inner(start, 'from')
  const to = inner(end, 'to')
  return html`${foldedGroup(
    start,
    { isOpen: isFilledIn(start) || isFilledIn(from) || hasFaultUnder(track, 'start'), summary: 'Start position' },
    html`<p class="hint">x is to the right and y is up the sheet; heading is counter-clockwise from x. Blank: 0. A track that continues from
another starts where that one ends.</p>
${fieldRow(start, fieldsBut(start))}
${legEditor(from, 'Leaves a turnout')}
${moveEditor(track)}`,
  )}
${foldedGroup(
  end,
  {
    isOpen: isFilledIn(end) || isFilledIn(at) || isFilledIn(to) || hasFaultUnder(track, 'end'),
    summary: 'Where the end must be',
  },
  html`<p class="hint">Fill this in if the track must end at a certain place: the results then say how far it misses it, and how to correct it. Blank: the end is free.</p>
${fieldRow(end, ['before'])}
${legEditor(to, 'Comes to a turnout')}
<div id="${at.path}" role="group" aria-label="End position">${preservedField(at)}${fieldRow(at, fieldsBut(at))}</div>`,
)}`
}

function legEditor(leg: Placed, name: string): Html {
  return html`<div id="${leg.path}" role="group" aria-label="${name}">${preservedField(leg)}${fieldRow(leg, fieldsBut(leg))}</div>`
}
