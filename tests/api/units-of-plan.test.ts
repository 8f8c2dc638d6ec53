import { describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { temporaryStore } from '../servers/databases.ts'

const PLAN = { ...DEMO_PLAN, standards: { ...DEMO_PLAN.standards, minimumRadius: '7 ft' } }
const IMPERIAL = { ...PLAN, units: 'imperial' }

const store = await temporaryStore()
const app = createApp({ store, workers: inThisThread })
const send = async (path: string, body: unknown) => {
  const headers = { 'Content-Type': 'application/json' }
  return app.request(path, { method: 'POST', headers, body: JSON.stringify(body) })
}
const get = async (path: string) => (await app.request(path)).text()
const answered = async (plan: unknown) => (await (await send('/v1/estimates', plan)).json()) as Answered

const METRIC = /\d (?:mm|m|K)(?![\w²³Ω])|\d °C/
const IN_FEET = /\d (?:ft|in)\b/

interface Answered {
  readonly findings: Finding[]
  readonly assumptions: Assumption[]
  readonly bends: { forming: { reason: string } }[]
  readonly cutting: unknown
  readonly bill: { total: string }
}
type Finding = { message: string; cure: string; measured: number | null }
type Assumption = { value: string; reason: string }

function sentencesOf({ findings, assumptions, bends }: Answered): string[] {
  return [
    ...findings.flatMap(({ message, cure }) => [message, cure]),
    ...assumptions.flatMap(({ value, reason }) => [value, reason]),
    ...bends.map(({ forming }) => forming.reason),
  ]
}

describe('the field units of a plan holds', () => {
  test('in every sentence of its estimate, and changes no number', async () => {
    const [usual, imperial, metric] = [
      await answered(PLAN),
      await answered(IMPERIAL),
      await answered({ ...PLAN, units: 'metric' }),
    ]
    expect(sentencesOf(usual).filter((text) => METRIC.test(text)).length).toBeGreaterThan(5)
    expect(sentencesOf(imperial).filter((text) => METRIC.test(text))).toEqual([])
    expect(sentencesOf(imperial).filter((text) => IN_FEET.test(text)).length).toBeGreaterThan(5)
    expect(sentencesOf(metric).filter((text) => IN_FEET.test(text))).toEqual([])
    for (const other of [imperial, metric]) {
      expect(other.cutting).toEqual(usual.cutting)
      expect(other.bill.total).toBe(usual.bill.total)
      expect(other.findings.map(({ measured }) => measured)).toEqual(usual.findings.map(({ measured }) => measured))
    }
  })

  test('in what is wrong with it, with hints that are right for JSON', async () => {
    const wrong = { ...IMPERIAL, gauge: -45, climate: { coldest: 'cold', hottest: 200 } }
    const { errors } = (await (await send('/v1/estimates', wrong)).json()) as {
      errors: { detail: string; hint?: string }[]
    }
    const said = errors.flatMap(({ detail, hint = '' }) => [detail, hint])
    expect(said.length).toBeGreaterThan(4)
    // A hint that shows how lengths and temperatures may be written has an example of each.
    expect(said.filter((text) => METRIC.test(text.replace(/write for example .*/, '')))).toEqual([])
    expect(said.join(' ')).toContain('a JSON number is °C')
  })

  test('in its tables and workbook unless other units are asked for, but not in what programs read', async () => {
    const headerOf = async (path: string, plan: unknown) => (await (await send(path, plan)).text()).split('\r\n')[0]
    expect(await headerOf('/v1/tables/elements.csv', PLAN)).toContain('lengthMm')
    expect(await headerOf('/v1/tables/elements.csv', IMPERIAL)).toContain('lengthIn')
    expect(await headerOf('/v1/tables/elements.csv?units=mm', IMPERIAL)).toContain('lengthMm')
    expect(await headerOf('/v1/tables/elements.csv?fraction=16', IMPERIAL)).toContain('lengthFtIn')
    expect((await send('/v1/tables/elements.csv?fraction=16', PLAN)).status).toBe(400)
    expect(await headerOf('/v1/tables/elements.json', IMPERIAL)).toContain('lengthMm')
    const bytes = async (query: string, plan: unknown) =>
      (await (await send(`/v1/workbook.xlsx${query}`, plan)).arrayBuffer()).byteLength
    expect(await bytes('', IMPERIAL)).toBe(await bytes('?units=in', IMPERIAL))

    const { id } = await store.create({ name: 'In feet', notes: '', plan: IMPERIAL })
    expect((await get(`/v1/projects/${id}/tables/elements.csv`)).split('\r\n')[0]).toContain('lengthIn')
    const made = (await (await send(`/v1/projects/${id}/links`, { label: 'sheet' })).json()) as { tables: string[] }
    const linked = made.tables.find((path) => path.endsWith('elements.csv'))
    expect((await get(new URL(linked!, 'http://127.0.0.1').pathname)).split('\r\n')[0]).toContain('lengthMm')
  })

  test('where a plan is compared in other metals', async () => {
    const asked = { plan: IMPERIAL, materials: [{ material: 'stainless' }, { material: 'brass' }] }
    const { assumptions } = (await (await send('/v1/comparisons', asked)).json()) as { assumptions: Assumption[] }
    expect(assumptions.length).toBeGreaterThan(3)
    expect(assumptions.flatMap(({ value, reason }) => [value, reason]).filter((text) => METRIC.test(text))).toEqual([])
  })
})
