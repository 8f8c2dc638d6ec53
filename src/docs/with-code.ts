import { html } from '../page/html.ts'

/** What stands between two backticks is code. */
export function withCode(text: string) {
  return html`${text.split('`').map((part, index) => (index % 2 === 1 ? html`<code>${part}</code>` : part))}`
}
