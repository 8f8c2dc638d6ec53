import { SECTIONS } from '../../catalogue/sections.ts'
import { shownIn } from '../form/bare-numbers.ts'
import { faultNote, field, type Placed } from '../form/controls.ts'
import { type Html, html } from '../html.ts'

/** The size of the curve that the readings are held against, and what tells the face of the rail from the centre line. */
export function sizeFields(placed: Placed): Html {
  const { cells } = placed.part
  const faults = placed.faults.get('across') ?? []
  const choice = (name: string, label: string, options: readonly (readonly [string, string])[]) =>
    html`<select name="${name}" aria-label="${label}">${options.map(
      ([value, text]) => html`<option value="${value}"${cells[name] === value && html` selected`}>${text}</option>`,
    )}</select>`
  return html`<div class="field"><label for="across">Target curve size</label><span class="pair">${choice(
    'acrossIs',
    'Size given as',
    [
      ['radius', 'Radius'],
      ['diameter', 'Diameter'],
    ],
  )}<input id="across" name="across" value="${shownIn(cells.across ?? '', { bare: 'length' }, placed.lengthsIn)}" aria-describedby="across.hint${faults.length > 0 && ' across.fault'}"${faults.length > 0 && html` aria-invalid="true"`}></span>
<span class="hint" id="across.hint">blank: for lining a laid curve</span>${faultNote('across', faults)}</div>
${field(placed, {
  key: 'acrossAt',
  label: 'Size is that of',
  options: [
    { value: 'centre', label: 'the track centre line' },
    { value: 'face', label: 'the face the chord touches' },
  ],
})}
${field(placed, {
  key: 'section',
  label: 'Rail section',
  hint: 'with a centre-line size',
  options: SECTIONS.map(({ id, name, estimated }) => ({ value: id, label: estimated ? `${name} (estimated)` : name })),
})}
${field(placed, {
  key: 'rail',
  label: 'Which rail',
  hint: 'with a centre-line size',
  options: [
    { value: 'outer', label: 'outer rail' },
    { value: 'inner', label: 'inner rail' },
  ],
})}
${field(placed, { key: 'gauge', label: 'Gauge', blank: { mm: 45 } })}`
}
