import type { Shape } from './form-shape.ts'
import { blankPart, type FormPart, mapped } from './plan-form.ts'
import { planShape } from './plan-shape.ts'

/** What buttons of a table do: add a row at its end, or something with one of its rows. */
const VERBS = ['add', 'insert', 'remove', 'duplicate', 'up', 'down'] as const

export interface RowChange {
  readonly verb: (typeof VERBS)[number]
  /** A table's path such as `tracks.0.elements`; but for adding, the row's number follows. */
  readonly path: string
}

/** Rows that "add" adds at once. */
const ROWS_ADDED: Readonly<Record<string, number>> = { elements: 5, rectangles: 3, polygon: 3, outline: 3 }

/** Blank rows at the end of each table. */
const ROWS_READY: Readonly<Record<string, number>> = {
  elements: 2,
  gradeLine: 2,
  limits: 1,
  ground: 2,
  breaks: 1,
  keepOut: 1,
  sticks: 1,
  panels: 1,
  rectangles: 3,
  calibration: 1,
  extras: 1,
  parts: 1,
  tieStrips: 1,
  turnoutTypes: 1,
  cars: 1,
  trains: 0,
  obstacles: 0,
  polygon: 3,
  outline: 3,
  pegs: 2,
  tracks: 0,
}

/** Reads the value of a button; null if it is not one of these. */
export function readRowChange(text: string): RowChange | null {
  const [, word, path] = /^(\w+) ([\w.]+)$/.exec(text) ?? []
  const verb = VERBS.find((each) => each === word)
  return verb && path !== undefined ? { verb, path } : null
}

/** The form after a row was added, inserted or removed. An unknown path changes nothing. */
export function withRowChange(form: FormPart, change: RowChange, shape: Shape = planShape): FormPart {
  return changed(shape, form, change.path.split('.'), change.verb)
}

function changed(shape: Shape, part: FormPart, path: readonly string[], verb: RowChange['verb']): FormPart {
  const [key, number, ...rest] = path
  const rowShape = shape.tables?.[key ?? '']
  if (!rowShape) {
    const group = shape.groups?.[key ?? '']
    const inner = part.groups[key ?? '']
    if (!group || !inner) return part
    return { ...part, groups: { ...part.groups, [key!]: changed(group, inner, path.slice(1), verb) } }
  }
  const rows = part.tables[key!] ?? []
  const replaced = (list: readonly FormPart[]) => ({ ...part, tables: { ...part.tables, [key!]: list } })
  const index = Number(number)
  if (number === undefined) {
    const blank = blankPart(rowShape)
    return verb === 'add' ? replaced([...rows, ...Array.from({ length: ROWS_ADDED[key!] ?? 1 }, () => blank)]) : part
  }
  if (!(index < rows.length)) return part
  if (rest.length > 0) return replaced(rows.map((row, n) => (n === index ? changed(rowShape, row, rest, verb) : row)))
  const row = rows[index]!
  switch (verb) {
    case 'insert':
      return replaced(rows.toSpliced(index, 0, blankPart(rowShape)))
    case 'remove':
      return replaced(rows.toSpliced(index, 1))
    case 'duplicate':
      return replaced(rows.toSpliced(index, 0, row))
    case 'up':
    case 'down': {
      const to = verb === 'up' ? index - 1 : index + 1
      return to in rows ? replaced(rows.toSpliced(index, 1).toSpliced(to, 0, row)) : part
    }
    case 'add':
      return part
  }
}

/** The form without blank rows, so that row n of a table is entry n of the plan's list. */
export function withoutBlankRows(form: FormPart, shape: Shape = planShape): FormPart {
  return tidied(shape, form, (rows, rowShape) => rows.filter((row) => !isBlank(rowShape, row)))
}

/** The form with blank rows at the end of each table; if there is no track, one is added. */
export function withRowsReady(form: FormPart): FormPart {
  const tracks = form.tables.tracks ?? []
  const started = tracks.length > 0 ? form : { ...form, tables: { ...form.tables, tracks: [firstTrack()] } }
  return withBlankRows(started, planShape)
}

export function withBlankRows(form: FormPart, shape: Shape): FormPart {
  return tidied(shape, form, (rows, rowShape, key) => {
    const used = rows.findLastIndex((row) => !isBlank(rowShape, row)) + 1
    const wanted = Math.max(rows.length, used + (ROWS_READY[key] ?? 0))
    return [...rows, ...Array.from({ length: wanted - rows.length }, () => blankPart(rowShape))]
  })
}

/** A new plan with the most common rail and blank rows. */
export function blankForm(): FormPart {
  const form = blankPart(planShape)
  const rail = form.groups.rail!
  const track = firstTrack()
  const elements = Array.from({ length: 6 }, () => blankPart(planShape.tables!.tracks!.tables!.elements!))
  return {
    ...form,
    groups: { ...form.groups, rail: { ...rail, cells: { ...rail.cells, section: '250', material: 'brass' } } },
    tables: { tracks: [{ ...track, tables: { ...track.tables, elements } }] },
  }
}

function firstTrack(): FormPart {
  const track = blankPart(planShape.tables!.tracks!)
  return { ...track, cells: { ...track.cells, name: 'main' } }
}

/** Whether nothing is filled in anywhere in a part. */
export function isBlank(shape: Shape, part: FormPart): boolean {
  if (part.preserved !== null) return false
  const blank = Object.entries(shape.cells).every(([key, cell]) => (part.cells[key] ?? '') === cell.show(undefined))
  return (
    blank &&
    Object.entries(shape.groups ?? {}).every(([key, group]) => !part.groups[key] || isBlank(group, part.groups[key])) &&
    Object.entries(shape.tables ?? {}).every(([key, row]) =>
      (part.tables[key] ?? []).every((each) => isBlank(row, each)),
    )
  )
}

function tidied(
  shape: Shape,
  part: FormPart,
  each: (rows: readonly FormPart[], shape: Shape, key: string) => readonly FormPart[],
): FormPart {
  return {
    ...part,
    groups: mapped(shape.groups ?? {}, (group, key) => tidied(group, part.groups[key] ?? blankPart(group), each)),
    tables: mapped(shape.tables ?? {}, (row, key) =>
      each(
        (part.tables[key] ?? []).map((inner) => tidied(row, inner, each)),
        row,
        key,
      ),
    ),
  }
}
