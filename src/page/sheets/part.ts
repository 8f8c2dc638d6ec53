import { type Html, html } from '../html.ts'

/** A card of a sheet with its heading. */
export function part(id: string, title: string, content: Html | readonly Html[]): Html {
  return html`<section class="card part ${id}" id="${id}" aria-labelledby="${id}-title"><h2 id="${id}-title">${title}</h2>
${content}</section>`
}
