/** The sheets of a worked plan, one for each job, in the order of the work. */
export const SHEETS = ['line', 'shop', 'saw', 'bench', 'garden', 'record'] as const

export type SheetName = (typeof SHEETS)[number]

/** What is on each sheet: its name in the links, and the job it is for. */
export const SHEET_WORDS: Readonly<Record<SheetName, { readonly name: string; readonly job: string }>> = {
  line: { name: 'Line', job: 'drawing and findings' },
  shop: { name: 'Shop', job: 'what to buy' },
  saw: { name: 'Saw', job: 'what to cut' },
  bench: { name: 'Bench', job: 'how to bend' },
  garden: { name: 'Garden', job: 'where to lay' },
  record: { name: 'Record', job: 'what was assumed' },
}

/** For the paths of endpoints, such as `/demo/:sheet{(?:line|shop)}`: without the group it would match more than one part of a path. */
export const ANY_SHEET = `(?:${SHEETS.join('|')})`

export function isSheet(text: string | undefined): text is SheetName {
  return SHEETS.some((name) => name === text)
}
