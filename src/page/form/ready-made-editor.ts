import { type Html, html } from '../html.ts'
import { field, hasFaultUnder, isFilledIn, open, type Placed, rowsOf } from './controls.ts'
import { tableEditor } from './table-editor.ts'

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
    first: ['name', 'length', 'across', 'angle'],
  })}</div>
<div class="fields">${field(supplies, 'readyMade')}</div>
</details>`
}

/** Of the rows shown one stands ready and is blank. */
const READY = 1
