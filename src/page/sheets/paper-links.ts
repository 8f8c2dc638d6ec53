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
  chord: ({ bends }) => bends.length > 0,
  turnout: ({ tracks }) => tracks.some(({ elements }) => elements.some(({ turnout }) => turnout)),
  envelope: ({ tracks, envelope = [] }) =>
    envelope.length > 0 && tracks.some(({ elements }) => elements.some(({ kind }) => kind === 'arc')),
}

/** Links to the files of a saved plan; null where it is not saved as it is shown. American paper for feet and inches. */
export function paperLinks({ base, posted, lengthsIn }: SheetLinks, sheet: SheetName, estimate: Estimate): Html | null {
  const [, id, revision] = SAVED.exec(base) ?? []
  if (posted || id === undefined) return null
  const ways = WAYS[sheet].filter(({ query }) => NEEDS[query.template ?? '']?.(estimate) ?? true)
  const links = ways.map(({ file, query, label }, index) => {
    const asked = new URLSearchParams({
      ...query,
      ...(file === 'sheets.pdf' && lengthsIn === 'feet' && { paper: 'letter' }),
      ...(revision !== undefined && { revision }),
    })
    const address = `/v1/projects/${id}/${file}${asked.size > 0 ? `?${asked}` : ''}`
    return html`${index > 0 && ' · '}<a href="${address}">${label}</a>`
  })
  return html`<p class="hint no-print paper-links">${links}</p>`
}
