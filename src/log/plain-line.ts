interface Line {
  readonly level: string
  readonly time: string
  readonly msg: string
  /** Of a request. */
  readonly status?: number
  readonly method?: string
  readonly template?: string
  readonly ms?: number
  readonly id?: string
  readonly err?: { readonly stack?: string; readonly message?: string }
}

/**
 * A line of the log for a person; null for what a person need not see.
 *
 * @param everything whether requests that were answered well are shown as well
 */
export function plainLine(json: string, everything: boolean): string | null {
  const { level, msg, status, method, template, ms, id, err } = JSON.parse(json) as Line
  const isTrouble = level === 'warn' || level === 'error'
  const mark = level === 'error' ? 'Error: ' : level === 'warn' ? 'Warning: ' : ''
  const stack = err === undefined ? '' : `\n${err.stack ?? err.message ?? ''}`
  if (status === undefined) return `${visible(`${mark}${msg}${stack}`)}\n`
  if (!everything && !isTrouble) return null
  return `${visible(`${mark}${method} ${template}: ${status} in ${ms} ms, request ${id}${stack}`)}\n`
}

/** All control characters but line breaks are written out, so that no text can command the terminal. */
const CONTROLS = /[\p{Cc}\p{Cf}\u2028\u2029]/gu

function visible(text: string): string {
  return text.replace(CONTROLS, (sign) =>
    sign === '\n' ? sign : `\\u${sign.codePointAt(0)!.toString(16).padStart(4, '0')}`,
  )
}
