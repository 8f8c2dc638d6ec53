import { attributes, type Content, type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'
import { SHEET_WORDS, SHEETS, type SheetName } from './sheet-names.ts'

/**
 * How the sheets of a plan lead to each other. A saved plan has an address for each. One that is not saved as it is shown
 * lives in the form of the page: the way to another sheet is then a button that posts this form.
 */
export interface SheetLinks {
  /** What the addresses of the sheets begin with, such as `/plans/{id}`. */
  readonly base: string
  /** Whether the plan is only in the form. */
  readonly posted: boolean
  readonly lengthsIn: LengthsIn
  /** The units the addresses show without being asked: those the plan was saved with. */
  readonly ownUnits: LengthsIn
}

export function sheetAddress({ base, posted, lengthsIn, ownUnits }: SheetLinks, sheet: SheetName): string {
  const units = posted || lengthsIn === ownUnits ? '' : `?show=${lengthsIn}`
  return `${base}/${sheet}${units}`
}

/** A link to another sheet, or a button where the plan has to be sent along. */
export function sheetLink(
  links: SheetLinks,
  sheet: SheetName,
  label: Content,
  look: Parameters<typeof attributes>[0] = {},
): Html {
  const address = sheetAddress(links, sheet)
  if (!links.posted) return html`<a href="${address}"${attributes(look)}>${label}</a>`
  const className = ['link', look.class].filter(Boolean).join(' ')
  return html`<button form="plan" name="do" value="work" formaction="${address}"${attributes({ ...look, class: className })}>${label}</button>`
}

/** What opens the form of a plan: a page of its own, as most pages of a plan do without it. */
export const EDIT = 'edit'

/** A link to the form, or to one of its fields. */
export function editLink(links: SheetLinks, label: Content, field = EDIT, className?: string): Html {
  const address = sheetAddress(links, 'line')
  if (links.posted)
    return html`<button form="plan" name="do" value="${EDIT}" formaction="${address}#${field}" class="${className ?? 'link'}">${label}</button>`
  const join = address.includes('?') ? '&' : '?'
  return html`<a href="${address}${join}${EDIT}#${field}"${attributes({ class: className })}>${label}</a>`
}

/** The row of all sheets at the top of each. */
export function sheetTabs(links: SheetLinks, present: SheetName): Html {
  return html`<nav class="tabs" aria-label="Sheets of this plan">${SHEETS.map((sheet) => {
    const { name, job } = SHEET_WORDS[sheet]
    const look = { class: 'tab', 'aria-current': sheet === present ? 'page' : null }
    return sheetLink(links, sheet, html`<b>${name}</b> <span>${job}</span>`, look)
  })}</nav>`
}
