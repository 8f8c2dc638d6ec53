import { html } from '../page/html.ts'

/** Text between two backticks becomes code. */
export function withCode(text: string) {
  return html`${text.split('`').map((part, index) => (index % 2 === 1 ? html`<code>${part}</code>` : part))}`
}
