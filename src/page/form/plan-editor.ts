import { MATERIALS } from '../../catalogue/materials.ts'
import { SECTIONS } from '../../catalogue/sections.ts'
import { attributes, type Html, html } from '../html.ts'
import { bendingEditor } from './bending-editor.ts'
import {
  control,
  type Field,
  faultNote,
  faultsAt,
  field,
  fieldRow,
  foldedGroup,
  hasFaultUnder,
  inner,
  keptField,
  optionOf,
  type Placed,
  pathTo,
  rowButton,
  rowsOf,
  textAt,
} from './controls.ts'
import { jointsEditor } from './joints-editor.ts'
import { MEASURED, OWN_METAL, STACKED } from './plan-shape.ts'
import { readyMadeEditor } from './ready-made-editor.ts'
import { tableEditor } from './table-editor.ts'
import { open, trackEditor } from './track-editor.ts'
import { tiesEditor, wayEditor } from './way-editor.ts'

const CALIPERS: readonly Field[] = [
  { key: 'height', label: 'Height of the rail' },
  { key: 'headWidth', label: 'Width of the head' },
  { key: 'footWidth', label: 'Width of the foot' },
  { key: 'webThickness', label: 'Thickness of the web' },
  { key: 'headDepth', label: 'Depth of the head', hint: 'blank: by proportion' },
  { key: 'footDepth', label: 'Depth of the foot', hint: 'blank: by proportion' },
]

const EFFORT: Field = {
  key: 'effort',
  label: 'Looking for the best cut plan',
  options: [
    { value: '', label: 'Usual: quick' },
    { value: 'quick', label: 'Quick, at once' },
    { value: 'thorough', label: 'Thorough, up to some seconds' },
  ],
}

const STANDARDS: readonly Field[] = [
  { key: 'longestCar', label: 'Longest car', hint: 'blank: curves are not held against it' },
  { key: 'minimumRadius', label: 'Minimum radius', hint: 'blank: three times the longest car' },
  {
    key: 'minimumTangentBetweenReverseCurves',
    label: 'Straight between reverse curves',
    hint: 'blank: one longest car',
  },
  { key: 'maximumGradePct', label: 'Maximum grade, percent', hint: 'blank: 2', numeric: true },
  { key: 'closureGap', label: 'Gap allowed where a loop closes', hint: 'blank: 2 mm' },
  { key: 'closureHeading', label: 'Kink allowed there, degrees', hint: 'blank: 0.5', numeric: true },
]

/** The fields of a whole plan, the everyday ones in view and the rest folded away until they say something. */
export function planEditor(plan: Placed, action: string): Html {
  const tracks = rowsOf(plan, 'tracks')
  return html`${keptField(plan)}${faultNote('plan', plan.faults.get('') ?? [])}
<p class="hint">Lengths are read as people write them: <kbd>7 ft 6 in</kbd>, <kbd>7' 6-1/2"</kbd>, <kbd>2.4 m</kbd>, <kbd>45 mm</kbd>.
A bare number is millimetres. What you leave blank is filled with a usual value, and the answer says so.</p>
${railEditor(plan, action)}
<div id="tracks">
${faultNote('tracks', plan.faults.get('tracks') ?? [])}
${tracks.map((track, index) => trackEditor(track, action, index, tracks.length === 1))}
<p class="below">${rowButton(action, 'add tracks', `tracks.${tracks.length}`, 'Add another track')}</p>
</div>
${bendingEditor(plan, action)}
${jointsEditor(plan)}
${suppliesEditor(plan, action)}
${wayEditor(plan, action)}
${standardsEditor(plan)}`
}

function railEditor(plan: Placed, action: string): Html {
  const rail = inner(plan, 'rail')
  const measured = inner(rail, 'measured')
  const sections = SECTIONS.map(({ id, name, estimated }) => ({
    value: id,
    label: estimated ? `${name} (estimated)` : name,
  }))
  const choose = { value: '', label: 'Choose …' }
  return html`<fieldset class="card" id="rail">
<legend>Sheet and rail</legend>
${keptField(rail)}${faultNote('rail', plan.faults.get('rail') ?? [])}
<div class="fields">
${field(plan, { key: 'title', label: 'Title', hint: 'printed on the sheets' })}
${field(rail, {
  key: 'section',
  label: 'Rail section',
  hint: 'code: height in thousandths of an inch',
  options: [
    choose,
    ...sections,
    { value: MEASURED, label: 'Measured with calipers' },
    { value: STACKED, label: 'Stack of rectangles' },
  ],
})}
${field(rail, {
  key: 'material',
  label: 'Metal',
  options: [
    choose,
    ...MATERIALS.map(({ id, name }) => ({ value: id, label: name })),
    { value: OWN_METAL, label: 'By its own numbers' },
  ],
})}
${temperField(rail)}
${field(plan, { key: 'gauge', label: 'Gauge', hint: 'blank: 45 mm, between the heads' })}
</div>
${foldedGroup(
  measured,
  {
    isOpen: textAt(rail, 'section') === MEASURED || hasFaultUnder(rail, 'measured'),
    summary: 'Six numbers from the calipers',
  },
  html`<p class="hint">Used when the rail section above is “Measured with calipers”.</p>
${fieldRow(measured, CALIPERS)}`,
)}
<details${open(textAt(rail, 'section') === STACKED || hasFaultUnder(rail, 'rectangles'))}>
<summary>Rectangles, for a rail of any other shape</summary>
${tableEditor(rail, action, {
  table: 'rectangles',
  caption: 'One upon the other on the rail’s middle line, the foot first, the head last',
  className: 'rectangles',
  row: 'rectangle',
  add: 'Three more rectangles',
  columns: [
    { key: 'width', label: 'Width' },
    { key: 'height', label: 'Height' },
  ],
})}
<p class="hint">Used when the rail section above is “Stack of rectangles”.</p>
</details>
${metalEditor(rail)}
</fieldset>`
}

const METAL: readonly Field[] = [
  { key: 'youngsModulusGpa', label: 'Young’s modulus, GPa', numeric: true },
  { key: 'yieldMpa', label: 'Yield (0.2 % proof), MPa', numeric: true },
  {
    key: 'elongationPct',
    label: 'Elongation at fracture, percent',
    hint: 'blank: strain is not checked',
    numeric: true,
  },
  { key: 'densityKgM3', label: 'Density, kg/m³', hint: 'blank: no mass', numeric: true },
  { key: 'resistivityOhmM', label: 'Resistivity, Ω·m', hint: 'such as 6.2e-8; blank: no drop', numeric: true },
]

const HARDENING: readonly Field[] = [
  {
    key: 'model',
    label: 'Beyond the yield',
    options: [
      { value: '', label: 'Choose …' },
      { value: 'ramberg-osgood', label: 'Ramberg–Osgood' },
      { value: 'linear', label: 'Straight line' },
      { value: 'perfectly-plastic', label: 'Perfectly plastic' },
    ],
  },
  { key: 'n', label: 'Exponent n', hint: 'Ramberg–Osgood alone', numeric: true },
  { key: 'tangentModulusGpa', label: 'Slope beyond the yield, GPa', hint: 'straight line alone', numeric: true },
]

function metalEditor(rail: Placed): Html {
  const metal = inner(rail, 'metal')
  const hardening = inner(metal, 'hardening')
  const isOpen = textAt(rail, 'material') === OWN_METAL || hasFaultUnder(rail, 'metal')
  return foldedGroup(
    metal,
    { isOpen, summary: 'Numbers of a metal of your own' },
    html`<p class="hint">Used when the metal above is “By its own numbers”; then leave the temper at “Not known”.</p>
${fieldRow(metal, METAL)}
<div class="fields" id="${hardening.path}" role="group" aria-label="Beyond the yield">${keptField(hardening)}${HARDENING.map((each) => field(hardening, each))}</div>
${faultNote(hardening.path, rail.faults.get(hardening.path) ?? [])}`,
  )
}

/** Tempers of all metals in one list; two metals may have one of the same name, so the chosen metal's is marked. */
function temperField(rail: Placed): Html {
  const path = pathTo(rail, 'temper')
  const chosen = textAt(rail, 'temper')
  const metal = textAt(rail, 'material').replace('aluminum', 'aluminium')
  const owner = MATERIALS.find(({ id, tempers }) => id === metal && tempers.some((temper) => temper.id === chosen))
  const faults = faultsAt(rail, 'temper')
  return html`<div class="field"><label for="${path}">Temper</label>
<select${attributes({ id: path, name: path, 'aria-invalid': faults.length > 0 ? 'true' : null, 'aria-describedby': faults.length > 0 ? `${path}.hint ${path}.fault` : `${path}.hint` })}>
${optionOf({ value: '', label: 'Not known' }, chosen)}
${MATERIALS.map(
  ({ id, name, tempers }) =>
    html`<optgroup label="${name}">${tempers.map((temper) =>
      optionOf({ value: temper.id, label: temper.name }, !owner || owner.id === id ? chosen : ''),
    )}</optgroup>`,
)}</select>
<span class="hint" id="${path}.hint">how hard it was drawn</span>${faultNote(path, faults)}</div>`
}

function suppliesEditor(plan: Placed, action: string): Html {
  const supplies = inner(plan, 'supplies')
  const packs = [
    { group: 'joiners', label: 'Rail joiners' },
    { group: 'insulatedJoiners', label: 'Insulated joiners' },
    { group: 'expansionJoints', label: 'Expansion joints' },
    { group: 'transitionJoiners', label: 'Transition joiners, to another section' },
    { group: 'ties', label: 'Ties' },
    { group: 'fasteners', label: 'Fasteners' },
  ].map(({ group, label }) => ({ label, placed: inner(supplies, group) }))
  const ties = inner(supplies, 'ties')
  return html`<details class="card"${open(hasFaultUnder(plan, 'supplies', 'effort'))} id="supplies">
<summary>What you have, and what you can buy <span class="hint">sticks, ready-made track, joiners, ties, prices</span></summary>
${keptField(supplies)}${faultNote('supplies', plan.faults.get('supplies') ?? [])}
${tableEditor(supplies, action, {
  table: 'sticks',
  caption: 'Sticks of rail. Blank: one length of 5 ft without a price',
  className: 'sticks',
  row: 'stick',
  add: 'One more length',
  columns: [
    { key: 'length', label: 'Length of a stick' },
    { key: 'price', label: 'Price of a pack', numeric: true },
    { key: 'packSize', label: 'Sticks in a pack', numeric: true },
    { key: 'onHand', label: 'On hand', numeric: true },
    { key: 'buyable', label: 'May be bought', tick: true },
  ],
})}
${readyMadeEditor(supplies, action)}
<table class="edit packs"><caption>Small parts</caption>
<thead><tr><th scope="col">Part</th><th scope="col">Pack of</th><th scope="col">Price of a pack</th><th scope="col">On hand</th><th scope="col">Spare, %</th></tr></thead>
<tbody>${packs.map(({ label, placed }) => packRow(placed, label))}</tbody></table>
<div class="fields">
${field(ties, { key: 'spacing', label: 'Tie spacing', hint: 'centre to centre; blank: 45 mm' })}
${field(ties, { key: 'fastenersPerTie', label: 'Fasteners to a tie', hint: 'blank: 4', numeric: true })}
${field(supplies, { key: 'kerf', label: 'Width of a saw cut', hint: 'blank: 1 mm' })}
${field(supplies, { key: 'minimumPiece', label: 'Shortest piece of rail', hint: 'blank: 150 mm' })}
${field(supplies, { key: 'taxRatePct', label: 'Tax, percent', hint: 'on top of all prices; blank: none', numeric: true })}
${field(plan, EFFORT)}
${field(supplies, { key: 'currency', label: 'Currency', hint: 'three letters; blank: USD' })}
</div>
${tiesEditor(ties)}
</details>`
}

function packRow(pack: Placed, label: string): Html {
  const cell = (key: string, name: string) => {
    const faults = faultsAt(pack, key)
    const path = pathTo(pack, key)
    return html`<td>${control(
      pack,
      { key, label: name, numeric: true },
      {
        id: faults.length > 0 ? path : null,
        'aria-label': `${name}, ${label.toLowerCase()}`,
        'aria-describedby': faults.length > 0 ? `${path}.fault` : null,
      },
    )}${faultNote(path, faults)}</td>`
  }
  return html`<tr id="${pack.path}"><th scope="row">${label}${keptField(pack)}</th>${cell('packSize', 'Pack of')}${cell('pricePerPack', 'Price of a pack')}${cell('onHand', 'On hand')}${cell('sparePct', 'Spare, percent')}</tr>`
}

function standardsEditor(plan: Placed): Html {
  const standards = inner(plan, 'standards')
  const isOpen = hasFaultUnder(plan, 'standards')
  const summary = html`Rules for your track <span class="hint">radius, grade, reverse curves</span>`
  return foldedGroup(standards, { isOpen, summary, isCard: true }, fieldRow(standards, STANDARDS))
}
