import type { Problem } from '../api/answers/problem.ts'

/** A refusal for a terminal: each fault with its place, what was expected there, and what to do. */
export function faultText({ title, detail, errors }: Problem): string {
  return [`${title}. ${detail}`, ...errors.map(entryText)].join('\n')
}

function entryText(fault: Problem['errors'][number]): string {
  const lines = [`${placeOf(fault)}: ${fault.detail} (${fault.code})`]
  if (fault.hint !== undefined) lines.push(`    ${fault.hint}`)
  return lines.join('\n')
}

function placeOf(fault: Problem['errors'][number]): string {
  if ('parameter' in fault) return `--${fault.parameter}`
  const whole = fault.pointer === '' ? 'the whole file' : fault.pointer
  if (!('row' in fault) || fault.row === undefined) return whole
  const { row, column, sheet } = fault as { row: number; column?: string | null; sheet?: string }
  return [
    ...(sheet === undefined ? [] : [`sheet ${sheet}`]),
    `row ${row}`,
    ...(column ? [`column ${column}`] : []),
  ].join(', ')
}
