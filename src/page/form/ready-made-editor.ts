import { type Html, html } from '../html.ts'
import { field, isInUse, open, type Placed } from './controls.ts'
import { tableEditor } from './table-editor.ts'

/** The ready-made pieces available, and whether they are used instead of loose rail. */
export function readyMadeEditor(supplies: Placed, action: string): Html {
  const isOpen = isInUse(supplies, 'panels', 'readyMade')
  return html`<details${open(isOpen)}>
<summary>Ready-made track <span class="hint">straight and curved pieces, with ties or without</span></summary>
<p class="hint">Assembled track with the same rail as this plan. Enter the length of a straight piece, or the diameter or radius of the centre line and the angle of a curved piece. Curved pieces can turn left or right.</p>
<div class="scroll">${tableEditor(supplies, action, {
    table: 'panels',
    caption: 'Ready-made pieces',
    className: 'pieces',
    row: 'piece',
    add: 'Add a piece',
    first: ['name', 'length', 'across', 'angle'],
  })}</div>
<div class="fields">${field(supplies, 'readyMade')}</div>
</details>`
}
