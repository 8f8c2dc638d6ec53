import { type Html, html } from '../html.ts'
import { type Field, field, hasFaultUnder, isFilledIn, type Placed, rowsOf } from './controls.ts'
import { tableEditor } from './table-editor.ts'
import { ACROSS, open } from './track-editor.ts'

const CHOICE: Field = {
  key: 'readyMade',
  label: 'Ready-made track is taken',
  options: [
    { value: '', label: 'Usual: where it is cheaper' },
    { value: 'cheapest', label: 'Where it is cheaper' },
    { value: 'always', label: 'Wherever a piece fits' },
    { value: 'never', label: 'Nowhere' },
  ],
}

/** Ready-made pieces that can be had, and whether they take the place of loose rail. */
export function readyMadeEditor(supplies: Placed, action: string): Html {
  const isOpen =
    hasFaultUnder(supplies, 'panels', 'readyMade') ||
    isFilledIn(supplies, ['readyMade']) ||
    rowsOf(supplies, 'panels').length > READY
  return html`<details${open(isOpen)}>
<summary>Ready-made track <span class="hint">straight and curved pieces, with ties or without</span></summary>
<p class="hint">Two rails of this plan’s own rail, put together. A straight piece is told by its length, a curved one by the diameter or radius of its middle line and its angle; it fits either turn.</p>
<div class="scroll">${tableEditor(supplies, action, {
    table: 'panels',
    caption: 'Ready-made pieces',
    className: 'pieces',
    row: 'piece',
    add: 'One more piece',
    columns: [
      { key: 'name', label: 'Name' },
      { key: 'length', label: 'Length' },
      {
        key: 'across',
        label: 'or size of curve',
        before: { key: 'acrossIs', label: 'Size is given as', options: ACROSS },
      },
      { key: 'angle', label: 'Angle °', numeric: true },
      { key: 'ties', label: 'Ties with it', numeric: true },
      { key: 'joiners', label: 'Joiners with it', numeric: true },
      { key: 'price', label: 'Price of a pack', numeric: true },
      { key: 'packSize', label: 'Pieces in a pack', numeric: true },
      { key: 'onHand', label: 'On hand', numeric: true },
      { key: 'buyable', label: 'May be bought', tick: true },
    ],
  })}</div>
<div class="fields">${field(supplies, CHOICE)}</div>
</details>`
}

/** Of the rows shown one stands ready and is blank. */
const READY = 1
