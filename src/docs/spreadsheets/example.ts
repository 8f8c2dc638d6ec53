import { html } from '../../page/html.ts'

/** The cell that most examples use, without diameter and chord. */
export const EXAMPLE_CELL = '/v1/cell/mid-ordinate?section=250&rail=outer'

/** A formula with the sign that separates its arguments, which depends on the spreadsheet's locale. */
export type Formula = (separator: ',' | ';') => string

/** A few rows to type into a sheet: the content of columns A and B, then formulas with what they show. */
interface Example {
  readonly id: string
  /** From row 1 on: a word for column A, the content of column B. */
  readonly given: readonly (readonly [label: string, content: string | number])[]
  /** The rows after them: a word for column A, the formula for column B, and what that cell shows. */
  readonly formulas: readonly { readonly label: string; readonly formula: Formula; readonly shows: string }[]
}

/** An example as rows and columns, with each formula in both styles. */
export function showExample({ id, given, formulas }: Example) {
  const rows = [
    ...given.map(([label, content]) => ({ label, content: html`<code class="typed">${content}</code>` })),
    ...formulas.map(({ label, shows }) => ({ label, content: html`<output>${shows}</output>` })),
  ]
  return html`<figure class="example" id="${id}">
<table class="cells"><thead><tr><td></td><th scope="col">A</th><th scope="col">B</th></tr></thead><tbody>
${rows.map(({ label, content }, index) => html`<tr><th scope="row">${index + 1}</th><td>${label}</td><td>${content}</td></tr>\n`)}</tbody></table>
${formulas.map(({ formula }, index) => showFormula(formula, `B${given.length + index + 1}`))}</figure>`
}

/** A formula in both styles, or once if they are the same; `cell` is the cell it belongs in. */
export function showFormula(formula: Formula, cell: string) {
  if (formula(',') === formula(';')) return html`<dl class="styles">${inStyle(cell, cell, 'any', formula(','))}</dl>\n`
  return html`<dl class="styles">
${inStyle(`${cell}, arguments separated by commas`, cell, ',', formula(','))}
${inStyle(`${cell}, arguments separated by semicolons`, cell, ';', formula(';'))}
</dl>\n`
}

function inStyle(term: string, cell: string, separator: ',' | ';' | 'any', text: string) {
  return html`<dt>${term}</dt><dd><pre class="formula" data-cell="${cell}" data-separator="${separator}">${text}</pre></dd>`
}

/** Converts the text that a service answers to a number, in any locale. */
export function asNumber(text: string): Formula {
  return (separator) => `=NUMBERVALUE(${text}${separator}"."${separator}",")`
}
