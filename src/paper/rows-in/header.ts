/** The columns a track may have. */
export const COLUMN_NAMES: ReadonlySet<string> = new Set([
  'kind',
  'length',
  'radius',
  'diameter',
  'angle',
  'turn',
  'label',
])

/** The columns that hold lengths. */
export const LENGTHS: ReadonlySet<string> = new Set(['length', 'radius', 'diameter'])

/** A header cell: its name in small letters, and the unit it carries, as in `length (ft)`, `Diameter [in]`. */
export function headerOf(cell: string): { readonly name: string; readonly unit: string | null } {
  const match = /^(.*?)\s*(?:[([]\s*([^)\]]*?)\s*[)\]])?$/.exec(cell.trim())
  const unit = match?.[2]?.toLowerCase()
  return { name: (match?.[1] ?? '').trim().toLowerCase(), unit: unit === undefined || unit === '' ? null : unit }
}

/** Units a column of lengths may be in, as they are written behind a number. */
export const LENGTH_UNITS: Readonly<Record<string, string>> = {
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  ft: 'ft',
  feet: 'ft',
  "'": 'ft',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
}

export const ANGLE_UNITS: ReadonlySet<string> = new Set(['deg', 'degree', 'degrees', '°'])
