import { attributes, type Html, html } from '../html.ts'
import { type SheetLinks, sheetAddress } from './sheet-links.ts'
import type { SheetName } from './sheet-names.ts'

export interface Question {
  readonly name: string
  readonly label: string
  readonly value: string
  readonly hint: string
  readonly button: string
  /** What is wrong with the value, as a sentence. */
  readonly fault?: string | null
}

/** A field that a sheet asks for itself: a form of its own, or a field of the plan's form where the plan is only there. */
export function question(links: SheetLinks, sheet: SheetName, asked: Question): Html {
  const { name, label, value, hint, button, fault = null } = asked
  const { posted, lengthsIn } = links
  const described = fault === null ? `${name}.hint` : `${name}.hint ${name}.fault`
  const body = html`<label for="${name}">${label}</label>
<input${attributes({ id: name, name, value, form: posted ? 'plan' : null, size: 8, 'aria-describedby': described, 'aria-invalid': fault === null ? null : 'true' })}>
<button${attributes({ class: 'small', ...(posted && { form: 'plan', name: 'do', value: 'work', formaction: sheetAddress(links, sheet) }) })}>${button}</button>
<span class="hint" id="${name}.hint">${hint}</span>${fault !== null && html`<p class="fault" id="${name}.fault" role="alert">${fault}</p>`}`
  if (posted) return html`<div class="question no-print">${body}</div>`
  return html`<form method="get" action="${links.base}/${sheet}" class="question no-print">${lengthsIn !== 'both' && html`<input type="hidden" name="show" value="${lengthsIn}">`}${body}</form>`
}
