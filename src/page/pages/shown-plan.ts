import type { Context } from 'hono'
import type { ProjectStore } from '../../projects/store.ts'
import type { Stock } from '../../shed/stock.ts'
import { asMeant, SHOWN_IN } from '../form/bare-numbers.ts'
import type { Values } from '../form/form-shape.ts'
import { type FormPart, formOfFields, formOfPlan, WHOLE } from '../form/plan-form.ts'
import { isObject, planShape } from '../form/plan-shape.ts'
import { isSheet, type SheetName } from '../sheets/sheet-names.ts'
import { readLengthsIn } from '../show-length.ts'
import { fieldsOf, plainText, type ShownStatus, show } from './answering.ts'
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

/** The posted form of a plan. */
export interface PostedPlan {
  readonly fields: ReadonlyMap<string, string>
  /** As it was typed, blank rows included. */
  readonly form: FormPart
  readonly saveFields: SaveFields
  readonly saved: Saved | null
}

/**
 * Reads the posted form of a plan, or the one field that stands for it on pages without the form; null where it is no form.
 *
 * @param id of the saved plan it belongs to
 */
export async function postedFor(c: Context, store: ProjectStore, id: string | null): Promise<PostedPlan | null> {
  const fields = await fieldsOf(c)
  if (!fields) return null
  const saveFields: SaveFields = {
    name: plainText(fields.get('name')).trim(),
    notes: plainText(fields.get('notes')).replaceAll('\r\n', '\n'),
    lengthsIn: readLengthsIn(fields.get('show')),
  }
  const whole = wholePlan(fields.get(WHOLE))
  const typed = () => asMeant(formOfFields(fields), planShape, readLengthsIn(fields.get(SHOWN_IN)))
  const saved = id === null ? null : await savedAs(store, id, Number(fields.get('revision')))
  return { fields, form: whole ? formOfPlan(whole) : typed(), saveFields, saved }
}

async function savedAs(store: ProjectStore, id: string, revision: number): Promise<Saved> {
  return { id, revision, opened: null, builds: (await store.builds(id)) ?? [] }
}

/** Written by a page; null where it was altered and cannot be read. */
function wholePlan(text: string | undefined): Values | null {
  if (text === undefined) return null
  try {
    const plan: unknown = JSON.parse(text)
    return isObject(plan) ? plan : null
  } catch {
    return null
  }
}

/** What the shed has for a plan: what is reserved for it, or, before it is saved, what is free. */
export async function stockOf(store: ProjectStore, saved: Saved | null): Promise<Stock> {
  return saved ? store.reserved(saved.id, saved.revision) : store.freeStock()
}
