import { type Html, html } from '../html.ts'
import {
  type Field,
  faultNote,
  field,
  hasFaultUnder,
  inner,
  isFilledIn,
  keptField,
  type Placed,
  tickField,
} from './controls.ts'
import { tableEditor } from './table-editor.ts'
import { open } from './track-editor.ts'

const PER_LENGTH: readonly Field[] = [
  { key: 'count', label: 'So many ties', hint: 'in place of the spacing', numeric: true },
  { key: 'length', label: 'to a length of' },
]

const STRIP: readonly Field[] = [
  { key: 'ties', label: 'Ties in a strip', hint: 'blank: ties are sold singly', numeric: true },
  { key: 'price', label: 'Price of a pack of strips', numeric: true },
  { key: 'packSize', label: 'Strips in a pack', hint: 'blank: 1', numeric: true },
  { key: 'onHand', label: 'Strips on hand', numeric: true },
  { key: 'sparePct', label: 'Spare strips, percent', numeric: true },
]

const BED: readonly Field[] = [
  {
    key: 'kind',
    label: 'Ballast',
    options: [
      { value: '', label: 'None, or not asked for' },
      { value: 'raised', label: 'Heaped up, raised bed' },
      { value: 'trench', label: 'Filled into a trench' },
    ],
  },
  { key: 'crownWidth', label: 'Width at the top' },
  { key: 'depthUnderTie', label: 'Depth under the ties' },
  { key: 'shoulderSlope', label: 'Slope of the sides, run to 1', hint: 'blank: 1.25; a trench 0', numeric: true },
  {
    key: 'filledTo',
    label: 'Ballast goes up to',
    options: [
      { value: '', label: 'Usual' },
      { value: 'tie-top', label: 'The tops of the ties' },
      { value: 'tie-bottom', label: 'Their bottoms' },
    ],
  },
  { key: 'shrinkagePct', label: 'Settles by, percent', hint: 'blank: 15', numeric: true },
  { key: 'densityKgM3', label: 'Weight when loose, kg/m³', hint: 'blank: 1600', numeric: true },
]

const TIE: readonly Field[] = [
  { key: 'length', label: 'Length of a tie' },
  { key: 'width', label: 'Width of a tie' },
  { key: 'height', label: 'Height of a tie' },
]

const BAG: readonly Field[] = [
  { key: 'volumeL', label: 'A bag holds, litres', numeric: true },
  { key: 'massKg', label: 'or kilograms', hint: 'both blank: bought loose', numeric: true },
  { key: 'price', label: 'Price of a bag', numeric: true },
  { key: 'onHand', label: 'Bags on hand', numeric: true },
  { key: 'sparePct', label: 'Spare, percent', numeric: true },
]

const SUPPLY: readonly Field[] = [
  { key: 'currentA', label: 'Trains draw, amperes', hint: 'blank: battery, steam, or not asked for', numeric: true },
  { key: 'supplyVoltageV', label: 'Supply, volts', hint: 'blank: 18', numeric: true },
  { key: 'maximumDropPct', label: 'May lose, percent', hint: 'blank: 5', numeric: true },
  { key: 'maximumDropV', label: 'or volts', numeric: true },
  { key: 'jointResistanceOhm', label: 'One joint of a rail, ohms', hint: 'blank: 0', numeric: true },
]

const FEEDER: readonly Field[] = [
  { key: 'awg', label: 'Feeder wire, gauge (AWG)', numeric: true },
  { key: 'areaMm2', label: 'or section, mm²', numeric: true },
  { key: 'length', label: 'Supply to rails', hint: 'one way' },
  { key: 'pricePerM', label: 'Price of a metre', hint: 'single wire', numeric: true },
  { key: 'onHand', label: 'Wire on hand', hint: 'single wire' },
  { key: 'sparePct', label: 'Spare, percent', numeric: true },
]

/** Other ways to count and to buy ties. */
export function tiesEditor(ties: Placed): Html {
  const isOpen =
    hasFaultUnder(ties, 'perLength', 'strip', 'jointTies') ||
    isFilledIn(ties, ['jointTies']) ||
    filled(inner(ties, 'perLength'), PER_LENGTH) ||
    filled(inner(ties, 'strip'), STRIP)
  return html`<details${open(isOpen)}>
<summary>More about ties <span class="hint">by count, in strips, at joints</span></summary>
${tickField(ties, 'jointTies', 'Add ties so that every joint hangs between two')}
${group(ties, 'perLength', 'Ties to a length', PER_LENGTH)}
${group(ties, 'strip', 'Moulded strips', STRIP)}
</details>`
}

/** Ballast, current, and whatever else goes on the list. */
export function wayEditor(plan: Placed, action: string): Html {
  const roadbed = inner(plan, 'roadbed')
  const power = inner(plan, 'power')
  return html`<details class="card"${open(hasFaultUnder(plan, 'roadbed', 'power', 'extras'))} id="way-fields">
<summary>Bed, current and extras <span class="hint">ballast, feeders, anything else to buy</span></summary>
${group(plan, 'roadbed', 'Ballast', BED)}
${group(roadbed, 'tie', 'Size of a tie', TIE)}
${group(roadbed, 'bag', 'How ballast is sold', BAG)}
${group(plan, 'power', 'Current in the rails', SUPPLY)}
${group(power, 'feeder', 'Feeders', FEEDER)}
${tableEditor(plan, action, {
  table: 'extras',
  caption: 'Anything else for the list',
  className: 'extras',
  row: 'extra',
  add: 'One more item',
  columns: [
    { key: 'item', label: 'Item' },
    {
      key: 'per',
      label: 'Counted',
      options: [
        { value: '', label: 'Choose …' },
        { value: 'm', label: 'for each metre of track' },
        { value: 'each', label: 'in all' },
      ],
    },
    { key: 'quantity', label: 'How many', numeric: true },
    { key: 'price', label: 'Price of a pack', numeric: true },
    { key: 'packSize', label: 'Pack of', numeric: true },
    { key: 'onHand', label: 'On hand', numeric: true },
  ],
})}
</details>`
}

function group(placed: Placed, key: string, legend: string, fields: readonly Field[]): Html {
  const own = inner(placed, key)
  return html`<fieldset id="${own.path}"><legend>${legend}</legend>
${keptField(own)}${faultNote(own.path, placed.faults.get(own.path) ?? [])}
<div class="fields">${fields.map((each) => field(own, each))}</div></fieldset>`
}

function filled(placed: Placed, fields: readonly Field[]): boolean {
  return isFilledIn(
    placed,
    fields.map(({ key }) => key),
  )
}
