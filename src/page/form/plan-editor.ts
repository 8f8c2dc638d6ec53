import { MATERIALS } from '../../catalogue/materials.ts'
import { PACK, SUPPLIES } from '../../plan/rows/supplies.ts'
import { attributes, type Html, html } from '../html.ts'
import { inUnits } from '../in-units.ts'
import { ballastPowerExtrasEditor } from './ballast-power-extras-editor.ts'
import { bareNumbers, shownIn } from './bare-numbers.ts'
import { bendingEditor } from './bending-editor.ts'
import { carsEditor } from './cars-editor.ts'
import {
  control,
  faultNote,
  faultsAt,
  field,
  fieldCalled,
  fieldGroup,
  fieldRow,
  fieldsBut,
  foldedGroup,
  hasFaultUnder,
  inner,
  isInUse,
  open,
  optionOf,
  type Placed,
  pathTo,
  preservedField,
  rowButton,
  rowsOf,
  textAt,
} from './controls.ts'
import { curveSizes, sizeList } from './curve-sizes.ts'
import { formShape, lowerFirst } from './form-shape.ts'
import { jointsEditor } from './joints-editor.ts'
import { obstaclesEditor } from './obstacles-editor.ts'
import { MEASURED, OWN_METAL, STACKED } from './plan-shape.ts'
import { readyMadeEditor } from './ready-made-editor.ts'
import { isBlank } from './rows.ts'
import { tableEditor } from './table-editor.ts'
import { IN_MORE_ABOUT_TIES, tiesEditor } from './ties-editor.ts'
import { trackEditor } from './track-editor.ts'
import { turnoutsEditor } from './turnouts-editor.ts'

/** Parts that are sold in packs, in the order of the table. */
const PACKS = [
  'joiners',
  'insulatedJoiners',
  'expansionJoints',
  'transitionJoiners',
  'ties',
  'fasteners',
  'throws',
  'frogSwitches',
] as const
const PACK_SHAPE = formShape(PACK)

/**
 * The fields of a whole plan. The common ones are always visible; the others are folded until they are used.
 *
 * @param figures what can be put in beside the tracks
 * @param curves the sizes it was started with
 */
export function planEditor(
  plan: Placed,
  action: string,
  { figures = null, curves = '' }: { readonly figures?: Html | null; readonly curves?: string } = {},
): Html {
  const tracks = rowsOf(plan, 'tracks')
  const sizes = curveSizes(tracks, curves)
  const shown = { count: tracks.length, turnouts: isInUse(plan, 'turnoutTypes'), sizes: sizes.length > 0 }
  return html`${preservedField(plan)}${faultNote('plan', plan.faults.get('') ?? [])}
<p class="hint">You can write lengths as <kbd>7 ft 6 in</kbd>, <kbd>7' 6-1/2"</kbd>, <kbd>2.4 m</kbd> or <kbd>45 mm</kbd>.
${bareNumbers(plan.lengthsIn)} Blank fields get default values, which are listed with the results.</p>
${railEditor(plan, action)}
${sizeList(sizes)}<div id="tracks">
${faultNote('tracks', plan.faults.get('tracks') ?? [])}
${tracks.map((track, index) => trackEditor(track, action, index, shown))}
<p class="below">${rowButton(action, 'add tracks', `tracks.${tracks.length}`, 'Add another track')}</p>
</div>
<div class="folds">
${figures}
${turnoutsEditor(plan, action)}
${carsEditor(plan, action)}
${obstaclesEditor(plan, action)}
${bendingEditor(plan, action)}
${jointsEditor(plan)}
${suppliesEditor(plan, action)}
${ballastPowerExtrasEditor(plan, action)}
${standardsEditor(plan)}
</div>`
}

function railEditor(plan: Placed, action: string): Html {
  const rail = inner(plan, 'rail')
  const measured = inner(rail, 'measured')
  return html`<fieldset class="card" id="rail">
<legend>Title and rail</legend>
${preservedField(rail)}${faultNote('rail', plan.faults.get('rail') ?? [])}
<div class="fields">
${field(plan, 'title')}
${field(rail, 'section')}
${field(rail, 'material')}
${temperField(rail)}
</div>
<div class="folds">
<details${open(isInUse(plan, 'gauge'))}><summary>Gauge <span class="hint">if it is not ${inUnits('45 mm', plan.lengthsIn)}</span></summary>
<div class="fields">${field(plan, 'gauge')}</div></details>
${foldedGroup(
  measured,
  {
    isOpen: textAt(rail, 'section') === MEASURED || hasFaultUnder(rail, 'measured'),
    summary: 'Caliper measurements',
  },
  html`<p class="hint">Used if the rail section above is “Measured with calipers”.</p>
${fieldRow(measured, fieldsBut(measured))}`,
)}
<details${open(textAt(rail, 'section') === STACKED || hasFaultUnder(rail, 'rectangles'))} class="stack">
<summary>Rectangles, for any other rail shape</summary>
${tableEditor(rail, action, {
  table: 'rectangles',
  caption: 'Stacked on the rail’s vertical centre line, from foot to head',
  className: 'rectangles',
  row: 'rectangle',
  add: 'Add three rectangles',
})}
<p class="hint">Used if the rail section above is “Stack of rectangles”.</p>
</details>
${metalEditor(rail)}
</div>
</fieldset>`
}

function metalEditor(rail: Placed): Html {
  const metal = inner(rail, 'metal')
  const hardening = inner(metal, 'hardening')
  const isOpen = textAt(rail, 'material') === OWN_METAL || hasFaultUnder(rail, 'metal')
  return foldedGroup(
    metal,
    { isOpen, summary: 'Properties of another metal' },
    html`<p class="hint">Used if the metal above is “Other: enter properties”. In that case, leave the temper at “Not known”.</p>
${fieldRow(metal, fieldsBut(metal))}
<div class="fields" id="${hardening.path}" role="group" aria-label="Hardening model">${preservedField(hardening)}${fieldsBut(hardening).map((each) => field(hardening, each))}</div>
${faultNote(hardening.path, rail.faults.get(hardening.path) ?? [])}`,
  )
}

/** Tempers of all metals in one list. Two metals may share the name of a temper, so only the chosen metal's is selected. */
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
<span class="hint" id="${path}.hint">hardness as supplied</span>${faultNote(path, faults)}</div>`
}

function suppliesEditor(plan: Placed, action: string): Html {
  const supplies = inner(plan, 'supplies')
  const packs = PACKS.map((group) => ({ label: SUPPLIES.fields[group].label!, placed: inner(supplies, group) }))
  const ties = inner(supplies, 'ties')
  const stick = lengthAlone(plan)
  const about =
    stick === null
      ? 'what you have and what you can buy'
      : `sticks of ${shownIn(stick, { bare: 'length' }, plan.lengthsIn)}; what you have and what you can buy`
  return html`<details class="card"${open(stick === null && isInUse(plan, 'supplies', 'effort'))} id="supplies">
<summary>Stock and supplies <span class="hint">${about}: sticks, ready-made track, joiners, ties</span></summary>
${preservedField(supplies)}${faultNote('supplies', plan.faults.get('supplies') ?? [])}
${tableEditor(supplies, action, {
  table: 'sticks',
  caption: 'Rail sticks (blank: 5 ft sticks without a price)',
  className: 'sticks',
  row: 'stick',
  add: 'Add a length',
})}
${readyMadeEditor(supplies, action)}
<table class="edit packs"><caption>Small parts</caption>
<thead><tr><th scope="col">Part</th>${Object.values(PACK_SHAPE.looks).map(({ label }) => html`<th scope="col">${label}</th>`)}</tr></thead>
<tbody>${packs.map(({ label, placed }) => packRow(placed, label))}</tbody></table>
<div class="fields">
${packs.map(({ placed }) => besidesPack(placed))}
${fieldsBut(supplies, 'readyMade').map((each) => field(supplies, each))}
${field(plan, 'effort')}
</div>
${fieldGroup(supplies, 'bridges', 'Bridges')}
${tiesEditor(ties)}
${longTiesEditor(supplies, action)}
</details>`
}

/** The length of the sticks, where nothing else is said of supplies: the start of a plan asks for it. */
function lengthAlone(plan: Placed): string | null {
  const { sticks = [] } = plan.part.groups.supplies!.tables
  const [first, ...others] = sticks
  const length = first?.cells.length ?? ''
  if (length === '' || hasFaultUnder(plan, 'supplies', 'effort') || plan.touched?.startsWith('supplies')) return null
  const { supplies } = plan.part.groups
  const without = {
    ...supplies!,
    tables: { ...supplies!.tables, sticks: [{ ...first!, cells: { ...first!.cells, length: '' } }, ...others] },
  }
  return isBlank(plan.shape.groups!.supplies!, without) && textAt(plan, 'effort') === '' ? length : null
}

/** Lengths of long ties, which turnouts that are built by hand take. */
function longTiesEditor(supplies: Placed, action: string): Html {
  return html`<details${open(isInUse(supplies, 'longTies'))}><summary>Long ties <span class="hint">for turnouts that you build yourself</span></summary>
${tableEditor(supplies, action, {
  table: 'longTies',
  caption: 'Lengths of long ties (blank: one line without a price)',
  className: 'long-ties',
  row: 'length of long tie',
  add: 'Add a length of long tie',
})}</details>`
}

/** A row of the table of parts. The other fields of ties are below the table. */
function packRow(pack: Placed, label: string): Html {
  const cells = Object.keys(PACK_SHAPE.looks).map((key) => {
    const spec = fieldCalled(pack, key)
    const faults = faultsAt(pack, key)
    const path = pathTo(pack, key)
    return html`<td>${control(pack, spec, {
      id: faults.length > 0 ? path : null,
      'aria-label': `${spec.label}, ${lowerFirst(label)}`,
      'aria-describedby': faults.length > 0 ? `${path}.fault` : null,
    })}${faultNote(path, faults)}</td>`
  })
  return html`<tr id="${pack.path}"><th scope="row">${label}${preservedField(pack)}</th>${cells}</tr>`
}

/** What a part has beside the fields of a pack. */
function besidesPack(pack: Placed): Html[] {
  return fieldsBut(pack, ...Object.keys(PACK_SHAPE.looks), ...IN_MORE_ABOUT_TIES).map((each) => field(pack, each))
}

function standardsEditor(plan: Placed): Html {
  const standards = inner(plan, 'standards')
  const isOpen = isInUse(plan, 'standards')
  const summary = html`Track standards <span class="hint">radius, grade, reverse curves</span>`
  return foldedGroup(standards, { isOpen, summary, isCard: true }, fieldRow(standards, fieldsBut(standards)))
}
