import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest'
import { liveWorkbook } from '../../src/paper/live-workbook/workbook.ts'
import { CONVERSATIONS } from '../api/conversations/conversations.ts'
import { freePort } from '../servers/postgres-server.ts'
import { running, type Service } from '../service/running.ts'
import { answersIn, examplesIn, formulasIn } from './guide.ts'
import { type CellRead, type Locale, type Office, startOffice } from './libre-office.ts'
import { type Heard, listening } from './listening.ts'

/** Fields separated by commas, texts quoted, UTF-8, from row 1, numbers as in en-US whatever the office is set to. */
const CSV_OPTIONS = '44,34,76,1,,1033,false,true'

const QUARTER_LOOP = JSON.parse(
  readFileSync(new URL('../../openapi/examples/quarter-loop.json', import.meta.url), 'utf8'),
) as unknown

let service: Service
let office: Office
const atEnd: (() => Promise<void> | void)[] = []

beforeAll(async () => {
  const dataDir = mkdtempSync(join(tmpdir(), 'longchord-spreadsheets-'))
  atEnd.unshift(() => rmSync(dataDir, { recursive: true, force: true }))
  office = startOffice()
  atEnd.unshift(office.close)
  service = await running({ DATA_DIR: dataDir }, undefined, (end) => atEnd.unshift(end))
}, 90_000)

afterAll(async () => {
  for (const end of atEnd) await end()
})

describe('LibreOffice', () => {
  test('is set to a locale: a decimal comma is one in all but en-US', async () => {
    const enter = [['A1', '=VALUE("1,5")']] as const
    for (const locale of ['de-DE', 'fr-FR', 'sv-SE'] as const)
      expect(await office.read({ locale, enter })).toEqual({ Sheet1: { A1: { kind: 'number', value: 1.5 } } })
    expect(await office.read({ locale: 'en-US', enter })).toMatchObject({ Sheet1: { A1: { kind: 'error' } } })
  })

  test.each(['en-US', 'de-DE'] as const)('links a table of a plan, every number as a number, in %s', async (locale) => {
    const post = async (path: string, body: unknown): Promise<Record<string, string>> => {
      const headers = { 'Content-Type': 'application/json' }
      const answer = await fetch(service.url + path, { method: 'POST', headers, body: JSON.stringify(body) })
      return (await answer.json()) as Record<string, string>
    }
    const project = await post('/v1/projects', { name: 'Pond line', plan: QUARTER_LOOP })
    const { token } = await post(`/v1/projects/${project.id}/links`, { label: 'bench' })
    const address = `${service.url}/v1/linked/${token}/tables/bill`
    const rows = (await (await fetch(`${address}.json`)).json()) as Record<string, string | number | null>[]
    expect(rows.length).toBeGreaterThan(3)

    const { Sheet1 } = await office.read({
      locale,
      link: { cell: 'A1', address: `${address}.csv`, options: CSV_OPTIONS },
    })
    const names = Object.keys(rows[0]!)
    const cell = (column: number, row: number) => Sheet1![`${String.fromCharCode(65 + column)}${row}`]
    expect(names.map((_, column) => cell(column, 1)?.value)).toEqual(names)
    for (const [index, row] of rows.entries())
      expect(names.map((_, column) => cell(column, index + 2)?.value ?? null)).toEqual(
        names.map((name) => (name === 'date' ? dayNumber(String(row[name])) : row[name])),
      )
  })
})

/** A day as spreadsheets count them, from 30 December 1899 on. */
function dayNumber(date: string): number {
  return (Date.parse(date) - Date.UTC(1899, 11, 30)) / 86_400_000
}

describe.each([
  { locale: 'en-US', separator: ',' },
  { locale: 'en-US', separator: ';' },
  { locale: 'de-DE', separator: ';' },
] as const)('the guide in $locale, with $separator between arguments', ({ locale, separator }) => {
  test('tells in each little sheet what its formulas show', async () => {
    const examples = examplesIn(await guide())
    expect(examples.map(({ id }) => id)).toEqual(['bend', 'track', 'refresh', 'complaint', 'comma'])
    for (const { id, typed, formulas, shows } of examples) {
      const used = formulas.filter((formula) => [separator, 'any'].includes(formula.separator))
      expect([id, used.map(({ cell }) => cell)]).toEqual([id, [...shows.keys()]])
      const enter = [...typed, ...used.map(({ cell, text }) => [cell, text] as const)]
      const { Sheet1 } = await office.read({ locale, enter })
      for (const [cell, text] of shows) expect([id, cell, Sheet1![cell]]).toEqual([id, cell, asCell(text)])
    }
  })

  test('tells what the formula of every cell shows', async () => {
    const markup = await guide()
    const shown = answersIn(markup)
    const formulas = formulasIn(markup).filter((formula) => formula.separator === separator)
    const used = formulas.filter(({ text }) => shown.some(({ address }) => text.includes(`"${address}"`)))
    expect(used).toHaveLength(shown.length)
    const enter = used.map(({ text }, index) => [`A${index + 1}`, text] as const)
    const { Sheet1 } = await office.read({ locale, enter })
    expect(shown.map((_, index) => Sheet1![`A${index + 1}`])).toEqual(shown.map(({ shows }) => asCell(shows)))
  })
})

test('without NUMBERVALUE a number does not arrive where decimals have a comma', async () => {
  const enter = [['A1', `=VALUE(WEBSERVICE("${service.url}/v1/cell/mid-ordinate?diameter=20ft&chord=500"))`]] as const
  expect(await office.read({ locale: 'en-US', enter })).toMatchObject({ Sheet1: { A1: { kind: 'number' } } })
  expect(await office.read({ locale: 'de-DE', enter })).toMatchObject({ Sheet1: { A1: { kind: 'error' } } })
})

describe('what it says to the service', () => {
  const observed = (client: string) =>
    CONVERSATIONS.find((each) => each.client === client && each.source === 'observed')!.requests
  /** As it was taken down, whatever the version is now. */
  const asTakenDown = (requests: readonly Heard[]) =>
    requests.map(({ method, headers }) => ({
      method,
      headers: { ...headers, 'User-Agent': headers['User-Agent']?.split(/[ /]/)[0] },
    }))

  test('is what is replayed to it in the other checks', async () => {
    const { url, heard, close } = await listening()
    onTestFinished(close)
    const enter = [['A1', `=WEBSERVICE("${url}/one")`]] as const
    await office.read({ enter })
    expect(asTakenDown(heard())).toEqual(asTakenDown(observed('LibreOffice, WEBSERVICE(), the first of a machine')))
    await office.read({ enter })
    expect(asTakenDown(heard())).toEqual(asTakenDown(observed('LibreOffice, WEBSERVICE(), the next of that machine')))
    const other = await listening()
    onTestFinished(other.close)
    await office.read({ link: { cell: 'A1', address: `${other.url}/bends.csv`, options: CSV_OPTIONS } })
    expect(asTakenDown(other.heard())).toEqual(asTakenDown(observed('LibreOffice, a linked table')))
  })

  test('is said again for another `refresh`, not for the same', async () => {
    const { url, heard, close } = await listening()
    onTestFinished(close)
    const asking = ['A2', `=WEBSERVICE("${url}/one?refresh="&A1)`] as const
    const asked = () => heard().filter(({ method }) => method === 'GET').length
    await office.read({ enter: [['A1', 1], asking, ['A1', 1]] })
    expect(asked()).toBe(1)
    await office.read({ enter: [['A1', 1], asking, ['A1', 2]] })
    expect(asked()).toBe(2)
  })
})

describe('a saved document', () => {
  const documentAsking = () =>
    flatDocument(
      `NUMBERVALUE(COM.MICROSOFT.WEBSERVICE("${service.url}/v1/cell/level-rise?grade=2&length=4ft");".";",")`,
    )

  test('gets its numbers where the office trusts its folder', async () => {
    const file = join(office.trusted, 'level.fods')
    writeFileSync(file, documentAsking())
    // By hand: 2 % of 4 ft are 0.02 · 1219.2 mm.
    for (const locale of ['en-US', 'de-DE'] as const)
      expect(await office.read({ file, locale })).toEqual({ Bench: { A1: { kind: 'number', value: 24.384 } } })
  })

  test('shows Err:540 elsewhere, as the guide says', async () => {
    const file = join(office.untrusted, 'level.fods')
    writeFileSync(file, documentAsking())
    expect(await office.read({ file })).toEqual({ Bench: { A1: { kind: 'error', value: 'Err:540' } } })
    expect(await guide()).toContain('Err:540')
  })
})

describe('the ready workbook', () => {
  const opened = async (enter: readonly (readonly [string, string | number])[] = [], locale?: Locale) => {
    const file = join(office.trusted, 'longchord.xlsx')
    const bytes = await (await fetch(`${service.url}/docs/spreadsheets/longchord.xlsx`)).arrayBuffer()
    writeFileSync(file, new Uint8Array(bytes))
    const sheets = await office.read({ file, enter, ...(locale ? { locale } : {}) })
    expect(
      Object.values(sheets)
        .flatMap((cells) => Object.values(cells))
        .filter(({ kind }) => kind === 'error'),
    ).toEqual([])
    return sheets
  }
  /** What stands beside a word in column A. */
  const beside = (cells: Readonly<Record<string, CellRead>>, word: string) => {
    const [at] = Object.entries(cells).find(([cell, { value }]) => cell.startsWith('A') && value === word) ?? []
    return cells[`B${at?.slice(1)}`]?.value
  }

  test.each(['en-US', 'de-DE'] as const)(
    'has no error in any cell, and the numbers of the JSON answers, in %s',
    async (locale) => {
      const { Start, 'One curve': curve, Track } = await opened([], locale)
      expect(beside(Start!, 'Is it running?')).toBe('yes')

      const rail = { section: '250', material: 'brass', temper: 'half-hard' }
      const bends = await json('/v1/bends?diameter=20ft&chord=500&section=250&material=brass&temper=half-hard')
      const arc = await estimate({
        rail,
        tracks: [{ name: 'a', elements: [{ kind: 'arc', diameter: '20 ft', angle: 45, turn: 'left' }] }],
      })
      for (const [side, hand] of [
        ['outer', 'right'],
        ['inner', 'left'],
      ] as const) {
        const { ordinates, forming } = bends.rails.find((each: { rail: string }) => each.rail === side)
        expect(beside(curve!, `Middle ordinate of the ${side} rail`)).toBe(ordinates[0].midMm)
        expect(beside(curve!, `Bend the ${side} rail to a radius of`)).toBe(forming.formingRadiusMm)
        expect(beside(curve!, `Length of the ${side} rail`)).toBeCloseTo(arc.tracks[0].rails[hand].lengthMm, 9)
      }

      const elements = [
        { kind: 'tangent', length: '6 ft' },
        { kind: 'easement', length: '2 ft' },
        { kind: 'arc', diameter: '18 ft', angle: 45, turn: 'left' },
        { kind: 'easement', length: '2 ft' },
        { kind: 'tangent', length: '1.2 m' },
      ]
      expect(beside(Track!, 'Track as one word')).toBe('S6ft_E2ft_Ld18ft-a45_E2ft_S1p2m')
      expectNumbers(
        Track!,
        await estimate({
          rail: { section: '250', material: 'brass' },
          tracks: [{ name: 'a', elements }],
          supplies: STICKS,
        }),
      )
    },
  )

  test('writes whatever elements are typed in one word, as they are spoken', async () => {
    const first = 19
    const rows: readonly (readonly [
      kind: string,
      length: string | number,
      diameter: string | number,
      angle: string | number,
      turn: string,
    ])[] = [
      ['arc', '7 ft 6 1/2 in', 5486.5, '', 'right'],
      ['easement', '6-1/2 in', '', '', ''],
      ['tangent', `7' 6 1/4"`, '', '', ''],
      ['tangent', 1200.5, '', '', ''],
      ['arc', '', '2.4 m', 22.5, 'left'],
      ['tangent', '30 cm', '', '', ''],
    ]
    const enter = [
      ['Track.B8', 'no'] as const,
      ...rows.flatMap((row, index) =>
        row.map((value, column) => [`Track.${'ABCDE'[column]}${first + index}`, value] as const),
      ),
    ]
    const { Track } = await opened(enter, 'de-DE')
    expect(beside(Track!, 'Track as one word')).toBe(
      'Rd5486p5-l7ft6-1o2in_E6-1o2in_S7ft6-1o4in_S1200p5_Ld2p4m-a22p5_S30cm',
    )
    const elements = [
      { kind: 'arc', diameter: 5486.5, length: '7 ft 6-1/2 in', turn: 'right' },
      { kind: 'easement', length: '6-1/2 in' },
      { kind: 'tangent', length: '7 ft 6-1/4 in' },
      { kind: 'tangent', length: 1200.5 },
      { kind: 'arc', diameter: '2.4 m', angle: 22.5, turn: 'left' },
      { kind: 'tangent', length: '30 cm' },
    ]
    expectNumbers(
      Track!,
      await estimate({
        rail: { section: '250', material: 'brass' },
        tracks: [{ name: 'a', elements }],
        supplies: STICKS,
      }),
    )
  })

  /** What is sent for each parameter of the number that stands beside a word. */
  const sentFor = (cells: Readonly<Record<string, CellRead>>, word: string) => {
    const [at] = Object.entries(cells).find(([cell, { value }]) => cell.startsWith('A') && value === word)!
    return Object.fromEntries(new URL(String(cells[`D${at.slice(1)}`]!.value)).searchParams)
  }

  test.each([
    ['en-US', '.', '2.4 m'],
    ['de-DE', ',', '2,4 m'],
    ['fr-FR', ',', '2,4 m'],
    ['sv-SE', ',', '2,4 m'],
  ] as const)('asks with decimal points, and with words as they are, in %s', async (locale, sign, spoken) => {
    const enter = [
      ['One curve.B3', spoken],
      ['One curve.B4', 22.5],
      ['One curve.B5', 500.5],
      ['One curve.B7', 'brass, hard'],
      ['Track.B4', 'no, thanks'],
      ['Track.B6', 14.25],
      ['Track.B19', spoken],
    ] as const
    const { Start, 'One curve': curve, Track } = await opened(enter, locale)
    expect(beside(Start!, 'Decimal sign')).toBe(sign)
    expect(sentFor(curve!, 'Length of the outer rail')).toMatchObject({ diameter: '2.4 m', angle: '22.5' })
    expect(sentFor(curve!, 'Middle ordinate of the inner rail')).toMatchObject({ chord: '500.5', section: '250' })
    expect(sentFor(curve!, 'Bend the inner rail to a radius of')).toMatchObject({ material: 'brass, hard' })
    expect(sentFor(Track!, 'Cost of the rail')).toMatchObject({
      material: 'no, thanks',
      stick: '6 ft',
      stickPrice: '14.25',
      track: 'S2p4m_E2ft_Ld18ft-a45_E2ft_S1p2m',
    })
  })

  test('makes no decimal of a comma that is none: it is refused', async () => {
    const { 'One curve': curve, Track } = await opened([
      ['One curve.B5', '1,234 mm'],
      ['Track.B19', '1,234 mm'],
    ])
    expect(beside(curve!, 'Middle ordinate of the outer rail')).toMatch(/^ERR bad-length chord: /)
    expect(beside(Track!, 'Track as one word')).toMatch(/^S1,234mm_/)
    expect(beside(Track!, 'Ties')).toMatch(/^ERR /)
  })

  test('says in the place of a number what is wrong with an input', async () => {
    const { 'One curve': curve } = await opened([['One curve.B5', 'wide']])
    expect(beside(curve!, 'Middle ordinate of the outer rail')).toMatch(/^ERR bad-length chord: /)
    expect(beside(curve!, 'Bend the outer rail to a radius of')).toBeGreaterThan(0)
  })

  test('says so when nobody answers', async () => {
    const file = join(office.trusted, 'elsewhere.xlsx')
    writeFileSync(file, await liveWorkbook(`http://127.0.0.1:${await freePort()}`))
    const { Start } = await office.read({ file })
    expect(beside(Start!, 'Is it running?')).toBe('no answer')
  })

  const STICKS = { sticks: [{ length: '6 ft', price: '14.50' }] }

  // biome-ignore lint/suspicious/noExplicitAny: any answer of the service.
  const json = async (path: string, asked?: RequestInit): Promise<any> =>
    (await fetch(service.url + path, asked)).json()
  const estimate = (plan: unknown) =>
    json('/v1/estimates', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(plan),
    })

  // biome-ignore lint/suspicious/noExplicitAny: the answer to an estimate.
  function expectNumbers(cells: Readonly<Record<string, CellRead>>, { tracks, cutting, bill }: any) {
    const [track] = tracks
    expect(beside(cells, 'Rail, both sides together')).toBeCloseTo(
      track.rails.left.lengthMm + track.rails.right.lengthMm,
      8,
    )
    expect(beside(cells, 'Ties')).toBe(track.ties)
    expect(beside(cells, 'Sticks of rail')).toBe(cutting.sticksUsed)
    expect(beside(cells, 'Rail joiners')).toBe(
      bill.lines.find(({ item }: { item: string }) => item === 'joiner').required,
    )
    expect(beside(cells, 'Cost of the rail')).toBe(Number(bill.total))
  }
})

const guide = async () => (await fetch(`${service.url}/docs/spreadsheets`)).text()

/** What a cell holds that shows this: all that reads as a number is one. */
function asCell(text: string) {
  return /^-?\d+(\.\d+)?$/.test(text) ? { kind: 'number', value: Number(text) } : { kind: 'text', value: text }
}

/** A document of one sheet with one formula, as LibreOffice saves it in one piece. */
function flatDocument(formula: string): string {
  const names = ['office', 'table'].map((name) => `xmlns:${name}="urn:oasis:names:tc:opendocument:xmlns:${name}:1.0"`)
  return `<?xml version="1.0" encoding="UTF-8"?>
<office:document ${names.join(' ')} xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet><table:table table:name="Bench"><table:table-row>
<table:table-cell table:formula="of:=${formula.replaceAll('&', '&amp;').replaceAll('"', '&quot;')}"/>
</table:table-row></table:table></office:spreadsheet></office:body></office:document>
`
}
