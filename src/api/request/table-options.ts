import type { z } from '@hono/zod-openapi'
import type { CsvForm } from '../../paper/csv.ts'
import type { LengthsIn } from '../../paper/table.ts'
import type { ParameterFault } from '../problem.ts'
import { choiceParameter, countParameter, countsParameter, query } from './query.ts'

const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t' } as const
const DECIMALS = { dot: '.', comma: ',' } as const
const PARTS = { 16: 16, 32: 32, 64: 64 } as const

const units = choiceParameter('Units', ['mm', 'in'], 'a unit of length')
  .optional()
  .openapi({
    param: {
      description:
        'Unit of lengths: millimetres, or decimal inches. When left out, mm; in a CSV table or workbook of a plan whose `units` are imperial, in.',
    },
  })
const fraction = choiceParameter('Fraction', ['16', '32', '64'], 'a number of parts of an inch')
  .optional()
  .openapi({
    param: {
      description:
        'With lengths in inches: as text, in feet, inches and this fraction of an inch. Decimal inches when left out.',
    },
  })

/** Bills that were bought, at most. */
const MOST_BILLS = 20

/** Revisions whose bills were bought. */
export const SINCE = countsParameter('Since', { least: 1, most: 2 ** 31 - 1 }, MOST_BILLS)
  .optional()
  .openapi({
    param: { description: 'A revision whose bill was bought; may be repeated. Nothing was bought when left out.' },
  })

const onlyCsv = (what: string) => ({ param: { description: `CSV only: ${what}` } })

/** The options of a workbook. */
export const WorkbookOptions = query({ units, fraction })

const ROW_NUMBERS = { least: 1, most: 2 ** 31 - 1 }

/** The options of a table, in any format. */
const TABLE = {
  units,
  fraction,
  sep: choiceParameter('Separator', ['comma', 'semicolon', 'tab'], 'a separator')
    .optional()
    .openapi(onlyCsv('what separates cells. comma when left out.')),
  decimal: choiceParameter('Decimal', ['dot', 'comma'], 'a decimal sign')
    .optional()
    .openapi(onlyCsv('the decimal sign. dot when left out; comma cannot be used with sep=comma.')),
  bom: choiceParameter('Bom', ['0', '1'], 'a choice')
    .optional()
    .openapi(
      onlyCsv(
        'the value 1 puts a byte order mark at the beginning, by which some spreadsheets recognise UTF-8. 0 when left out.',
      ),
    ),
  from: countParameter('From', ROW_NUMBERS)
    .optional()
    .openapi({ param: { description: 'The number of the first row that is wanted. 1 when left out.' } }),
  rows: countParameter('Rows', ROW_NUMBERS)
    .optional()
    .openapi({
      param: {
        description: 'How many rows are wanted at most; the header Link leads to the next ones. All when left out.',
      },
    }),
}

export const TableOptions = query(TABLE)

/** The same for a table of a project, of which the bill may be that of what is still to buy. */
export const ProjectTableOptions = query({ ...TABLE, since: SINCE })

export interface TableForm {
  readonly lengthsIn: LengthsIn
  readonly csv: CsvForm
  /** The rows that are wanted, the first with the number 1. */
  readonly part: { readonly from: number; readonly rows: number }
}

type UsualUnits = 'mm' | 'in'

/** The unit of a plan's tables where none is asked for. Programs read JSON by its keys, which stay the same for all plans. */
export function usualUnits(plan: { readonly units?: unknown }, format: 'csv' | 'json' | 'xlsx'): UsualUnits {
  return plan.units === 'imperial' && format !== 'json' ? 'in' : 'mm'
}

/** How to write a table, or the options that contradict others. */
export function tableForm(
  options: z.output<typeof TableOptions>,
  format: 'csv' | 'json' | 'xlsx',
  usual: UsualUnits = 'mm',
): { ok: true; form: TableForm } | { ok: false; faults: ParameterFault[] } {
  const { sep = 'comma', decimal = 'dot', bom = '0', from = 1, rows = Number.POSITIVE_INFINITY } = options
  const faults: ParameterFault[] = []
  const units = options.units ?? usual
  if (options.fraction !== undefined && units !== 'in')
    faults.push({
      parameter: 'fraction',
      code: 'contradictory',
      detail: 'fractions are for inches, but the lengths are in millimetres',
      hint: 'add units=in, or leave fraction out',
    })
  if (format === 'csv' && sep === 'comma' && decimal === 'comma')
    faults.push({
      parameter: 'decimal',
      code: 'contradictory',
      detail: 'the comma would be both decimal sign and separator',
      hint: 'add sep=semicolon',
    })
  if (format !== 'csv')
    for (const parameter of ['sep', 'decimal', 'bom'] as const)
      if (options[parameter] !== undefined)
        faults.push({
          parameter,
          code: 'contradictory',
          detail: `it has no effect on ${format === 'json' ? 'a table as JSON' : 'a workbook'}`,
          hint: 'leave it out, or request the table as CSV',
        })
  if (faults.length > 0) return { ok: false, faults }
  const lengthsIn = options.fraction !== undefined ? { partsOfInch: PARTS[options.fraction] } : units
  const csv = { sep: SEPARATORS[sep], decimal: DECIMALS[decimal], bom: bom === '1' }
  return { ok: true, form: { lengthsIn, csv, part: { from, rows } } }
}
