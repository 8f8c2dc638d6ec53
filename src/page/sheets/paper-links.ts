import type { Estimate } from '../../estimate/answer.ts'
import { type Html, html } from '../html.ts'
import type { SheetLinks } from './sheet-links.ts'
import type { SheetName } from './sheet-names.ts'

/** Of a saved plan, and of one of its revisions. */
const SAVED = /^\/plans\/([^/]+)(?:\/revisions\/(\d+))?$/

interface Way {
  readonly file: string
  readonly query: Readonly<Record<string, string>>
  readonly label: string
}

const print = (sheets: string | null, label: string): Way => ({
  file: 'sheets.pdf',
  query: sheets === null ? {} : { for: sheets },
  label,
})
const template = (name: string, label: string): Way => ({
  file: 'sheets.pdf',
  query: { for: 'templates', template: name },
  label,
})
const ALL = print(null, 'All sheets as PDF')

/** What each sheet is taken along as. */
const WAYS: Readonly<Record<SheetName, readonly Way[]>> = {
  line: [
    print('line', 'Print as PDF'),
    { file: 'plan.dxf', query: {}, label: 'Drawing for CAD' },
    { file: 'plan.svg', query: {}, label: 'Drawing as SVG' },
    ALL,
  ],
  shop: [print('shop', 'Print as PDF'), ALL],
  saw: [print('saw', 'Print as PDF'), ALL],
  bench: [
    print('bench', 'Print as PDF'),
    template('curve', 'A curve in true size'),
    template('chord', 'A chord gauge in true size'),
    ALL,
  ],
  garden: [
    print('garden', 'Print as PDF'),
    template('turnout', 'A turnout in true size'),
    template('envelope', 'The room of the longest car in true size'),
    ALL,
  ],
  record: [ALL],
}

/** What a plan must have for a template. */
const NEEDS: Readonly<Record<string, (estimate: Estimate) => boolean>> = {
  curve: ({ tracks }) => tracks.some(({ elements }) => elements.some(({ kind }) => kind === 'arc')),
  chord: ({ bends }) => bends.some(({ turnout }) => !turnout),
  turnout: ({ tracks }) => tracks.some(({ elements }) => elements.some(({ turnout }) => turnout)),
  envelope: ({ tracks, envelope = [] }) =>
    envelope.length > 0 && tracks.some(({ elements }) => elements.some(({ kind }) => kind === 'arc')),
}

/** The last part of the address that prints a plan that is only in the form. */
export const PRINTED = 'print.pdf'

/** The sheets of the demo plan that have its form. */
const WITH_FORM: readonly SheetName[] = ['line', 'record']

/**
 * Links to the files of a saved plan; buttons that print one that is only in the form; null where there is neither.
 * American paper for feet and inches.
 */
export function paperLinks(links: SheetLinks, sheet: SheetName, estimate: Estimate): Html | null {
  const [, id, revision] = SAVED.exec(links.base) ?? []
  const isInForm = links.posted || (id === undefined && WITH_FORM.includes(sheet))
  const ways = isInForm ? WAYS[sheet].filter(isPrint) : id === undefined ? [] : WAYS[sheet]
  const offered = ways
    .filter(({ query }) => NEEDS[query.template ?? '']?.(estimate) ?? true)
    .map((way) => (isInForm ? printButton(links, way) : fileLink(links, way, id!, revision)))
  if (offered.length === 0) return null
  return html`<p class="hint no-print paper-links">${offered.map((each, index) => html`${index > 0 && ' · '}${each}`)}</p>`
}

function isPrint({ file, query }: Way): boolean {
  return file === 'sheets.pdf' && query.template === undefined
}

function fileLink(
  { lengthsIn }: SheetLinks,
  { file, query, label }: Way,
  id: string,
  revision: string | undefined,
): Html {
  const asked = new URLSearchParams({
    ...query,
    ...(file === 'sheets.pdf' && lengthsIn === 'feet' && { paper: 'letter' }),
    ...(revision !== undefined && { revision }),
  })
  return html`<a href="/v1/projects/${id}/${file}${asked.size > 0 && `?${asked}`}">${label}</a>`
}

function printButton({ base, posted }: SheetLinks, { query, label }: Way): Html {
  const asked = new URLSearchParams(query)
  const address = `${posted ? base : '/sheets'}/${PRINTED}${asked.size > 0 ? `?${asked}` : ''}`
  return html`<button form="plan" name="do" value="work" formaction="${address}" class="link">${label}</button>`
}
