import type { Estimate } from '../../../estimate/answer.ts'
import { calledInSentence, fieldAt } from '../../../plan/fields/at.ts'
import { PLAN } from '../../../plan/rows/plan.ts'
import { sentence } from '../../form/controls.ts'
import { type Html, html } from '../../html.ts'

/** Labels of fields that are not part of a plan. */
const OTHERS: Readonly<Record<string, string>> = { angle: 'Angle' }

/** The form's words for values that are identifiers. */
const VALUES: Readonly<Record<string, string>> = {
  true: 'yes',
  false: 'no',
  'loose-rail': 'loose rail',
  assembled: 'assembled track, both rails together',
  'finish-by-hand': 'finished by hand',
  trim: 'cut off',
  cheapest: 'where it is cheaper',
  'join-and-roll-through': 'sticks joined first, then rolled through',
  unknown: 'not known',
}

/** The fields that the plan leaves open and the values used for them. */
export function assumptionList({ assumptions, tracks }: Estimate): Html {
  if (assumptions.length === 0) return html`<p>No assumptions: the plan gives every value.</p>`
  return html`<table class="figures words"><thead><tr><th scope="col">Not given</th><th scope="col">Value used</th><th scope="col">Reason</th></tr></thead>
<tbody>${assumptions.map(
    ({ field, value, reason }) =>
      html`<tr><th scope="row">${fieldName(field, tracks)}</th><td>${VALUES[value] ?? value}</td><td>${sentence(reason)}</td></tr>
`,
  )}</tbody></table>`
}

/** The form's name for a JSON Pointer into the plan: `/tracks/0/start` is "Start position, pond loop". */
export function fieldName(pointer: string, tracks: readonly { readonly name: string }[]): string {
  const path = pointer
    .split('/')
    .slice(1)
    .map((token) => (/^\d+$/.test(token) ? Number(token) : token))
  const own = labelAt(path)
  const [room, second, entry] = path
  if (room === 'tracks' && typeof second === 'number') return `${own}, ${tracks[second]?.name ?? `track ${second + 1}`}`
  if (typeof second === 'number') return `${own}, ${entryOf([room!])} ${second + 1}`
  if (room !== 'supplies' || path.length < 3) return own
  const owner = path.slice(0, 2)
  if (typeof entry === 'number') return `${own}, ${entryOf(owner)} ${entry + 1}`
  return CLEAR_ALONE.includes(String(path.at(-1))) ? own : `${own}, ${calledInSentence(fieldAt(PLAN, owner)!)}`
}

/** What an entry of a list is called. */
function entryOf(path: readonly (string | number)[]): string {
  const list = fieldAt(PLAN, path)
  return (list?.is === 'list' && list.entry) || 'entry'
}

/** Fields whose labels are clear without the name of their group. */
const CLEAR_ALONE = ['spacing', 'fastenersPerTie']

/** The name of a field, with a capital letter. */
function labelAt(path: readonly (string | number)[]): string {
  const row = fieldAt(PLAN, path)
  const name = row && calledInSentence(row)
  if (name) return name.charAt(0).toUpperCase() + name.slice(1)
  return OTHERS[String(path.at(-1))] ?? String(path.at(-1))
}
