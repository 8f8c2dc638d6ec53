import type { Context } from 'hono'
import type { ProjectStore } from '../../projects/store.ts'
import type { Stock } from '../../shed/stock.ts'
import type { FormPart } from '../form/plan-form.ts'
import { isSheet, type SheetName } from '../sheets/sheet-names.ts'
import { type ShownStatus, show } from './answering.ts'
import { type PlanPage, planPage, type Saved, type SaveFields } from './plan-page.ts'

/** A page of a plan on which nothing is shown yet. */
export const BLANK = {
  faults: [],
  worked: null,
  saved: null,
  sheet: 'line',
  sheetBase: null,
  ownUnits: 'both',
  railAt: null,
  editorOpen: false,
  metalPrices: new Map<string, string>(),
} as const

export function showPlan(c: Context, page: PlanPage, status: ShownStatus = 200): Response {
  return show(c, { title: nameOf(page.saveFields, page.form) || 'New plan', main: planPage(page) }, status)
}

/** The name a plan has been given, or its title. */
export function nameOf(saveFields: SaveFields, form: FormPart): string {
  return saveFields.name || (form.cells.title ?? '').trim()
}

/** The sheet in the address; the line in an address without one. */
export function sheetAsked(c: Context): SheetName {
  const sheet = c.req.param('sheet')
  return isSheet(sheet) ? sheet : 'line'
}

/** What the shed has for a plan: what is reserved for it, or, before it is saved, what is free. */
export async function stockOf(store: ProjectStore, saved: Saved | null): Promise<Stock> {
  return saved ? store.reserved(saved.id, saved.revision) : store.freeStock()
}
