import type { Estimate } from '../../estimate/answer.ts'
import { calledInSentence, fieldAt } from '../../plan/fields/at.ts'
import { PLAN } from '../../plan/rows/plan.ts'
import { sentence } from '../form/controls.ts'
import { type Html, html } from '../html.ts'

/** Names of what a question says beside a plan. */
const OTHERS: Readonly<Record<string, string>> = { angle: 'Angle' }

/** Values that the plan names by identifiers, in the words of the form. */
const VALUES: Readonly<Record<string, string>> = {
  true: 'yes',
  false: 'no',
  'loose-rail': 'loose rail',
  assembled: 'assembled track, both rails at once',
  'finish-by-hand': 'finished by hand',
  trim: 'cut off',
  cheapest: 'where it comes cheaper',
  'join-and-roll-through': 'joined first, rolled through',
  unknown: 'not known',
}

/** Everything the plan left open and what was taken for it. */
export function assumptionList({ assumptions, tracks }: Estimate): Html {
  if (assumptions.length === 0) return html`<p>Nothing: the plan says it all.</p>`
  return html`<table class="figures words"><thead><tr><th scope="col">Left open</th><th scope="col">Taken</th><th scope="col">Why</th></tr></thead>
<tbody>${assumptions.map(
    ({ field, value, reason }) =>
      html`<tr><th scope="row">${fieldName(field, tracks)}</th><td>${valueInWords(field, value)}</td><td>${sentence(reason)}</td></tr>
`,
  )}</tbody></table>`
}

function valueInWords(field: string, value: string): string {
  if (field === '/bender/fixedEnd') return `its ${value}`
  return VALUES[value] ?? value
}

/** A JSON Pointer into the plan in the words of the form: `/tracks/0/start` is "Where it starts, pond loop". */
export function fieldName(pointer: string, tracks: readonly { readonly name: string }[]): string {
  const path = pointer
    .split('/')
    .slice(1)
    .map((token) => (/^\d+$/.test(token) ? Number(token) : token))
  const own = labelAt(path)
  const [room, second, entry] = path
  if (room === 'tracks' && typeof second === 'number') return `${own}, ${tracks[second]?.name ?? `track ${second + 1}`}`
  if (room === 'extras' && typeof second === 'number') return `${own}, extra ${second + 1}`
  if (room !== 'supplies' || path.length < 3) return own
  const owner = fieldAt(PLAN, path.slice(0, 2))
  if (owner?.is === 'list' && typeof entry === 'number') return `${own}, ${owner.entry} ${entry + 1}`
  return OF_THEIR_OWN.includes(String(path.at(-1))) ? own : `${own}, ${calledInSentence(owner!)}`
}

/** Names that say by themselves what they are of. */
const OF_THEIR_OWN = ['spacing', 'fastenersPerTie']

/** The label of a field, short of what it is filled in with. */
function labelAt(path: readonly (string | number)[]): string {
  const row = fieldAt(PLAN, path)
  const name = row && calledInSentence(row)
  if (name) return name.charAt(0).toUpperCase() + name.slice(1)
  return OTHERS[String(path.at(-1))] ?? String(path.at(-1))
}
