/** What can be asked without anything that is stored, by its word in the addresses of the interface. */
export const COMMANDS = {
  estimates: { method: 'post', path: '/v1/estimates' },
  comparisons: { method: 'post', path: '/v1/comparisons' },
  figures: { method: 'post', path: '/v1/figures' },
  fits: { method: 'post', path: '/v1/fits' },
  moves: { method: 'post', path: '/v1/moves' },
  surveys: { method: 'post', path: '/v1/surveys' },
  tables: { method: 'post', path: '/v1/tables/{file}' },
  drawings: { method: 'post', path: '/v1/drawings/{file}' },
  sheets: { method: 'post', path: '/v1/sheets' },
  'cut-plans': { method: 'post', path: '/v1/cut-plans' },
  'setting-outs': { method: 'post', path: '/v1/setting-outs' },
  'bend-checks': { method: 'post', path: '/v1/bend-checks' },
  'bend-calibrations': { method: 'post', path: '/v1/bend-calibrations' },
  bends: { method: 'get', path: '/v1/bends' },
  turnouts: { method: 'get', path: '/v1/turnouts' },
  overhangs: { method: 'get', path: '/v1/overhangs' },
  'vertical-curves': { method: 'get', path: '/v1/vertical-curves' },
} as const satisfies Record<string, Command>

export interface Command {
  readonly method: 'get' | 'post'
  /** With `{file}` where the option of this name stands. */
  readonly path: string
}

/** The command of a word, which may leave the last s out: `estimate`. */
export function commandOf(word: string): keyof typeof COMMANDS | null {
  const names = Object.keys(COMMANDS) as (keyof typeof COMMANDS)[]
  return names.find((name) => name === word || name === `${word}s`) ?? null
}
