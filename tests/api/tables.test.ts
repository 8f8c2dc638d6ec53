import Papa from 'papaparse'
import readExcelFile from 'read-excel-file/node'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { PlanFinding } from '../../src/checking/finding.ts'
import type { Estimate } from '../../src/estimate/answer.ts'
import { TABLE_NAMES } from '../../src/paper/estimate-tables.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { temporaryStore } from '../servers/databases.ts'
import { ARC, asking, example, placesIn, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

let store: ProjectStore
let ask: ReturnType<typeof asking>['ask']
let project: string
let estimate: Estimate

/** Two tracks, one with weather to have gaps, prices, an easement and something to complain of. */
const PLAN = planWith({
  title: '=HYPERLINK("x")',
  tracks: [
    trackOf(TANGENT, { kind: 'easement', length: '2 ft' }, { ...ARC, label: 'a "tight" one, really' }, TANGENT),
    {
      name: 'spur; long',
      elements: [
        { kind: 'arc', radius: 900, angle: 30, turn: 'right' },
        { kind: 'tangent', length: 400 },
      ],
    },
  ],
  climate: { laying: 15, coldest: -10, hottest: 35 },
  standards: { minimumRadius: 1000 },
  supplies: { sticks: [{ length: '5 ft', price: '14.50' }], joiners: { pricePerPack: 9, packSize: 10 } },
})

beforeAll(async () => {
  store = await temporaryStore()
  ask = asking(createApp({ store, workers: inThisThread, clock: () => new Date('2026-05-31T23:59:59Z') })).ask
  const made = await ask('/v1/projects', { method: 'POST', json: { name: 'Pond "line" ü', plan: PLAN } })
  project = `/v1/projects/${JSON.parse(made.text).id}`
  estimate = JSON.parse((await ask(`${project}/estimate`)).text)
})
afterAll(() => store.close())

const ORIGIN = { plan: 'Pond "line" ü', revision: 1, date: '2026-05-31' }

type Row = Record<string, string | number | null>
const rowsOf = async (name: string, options = ''): Promise<Row[]> =>
  JSON.parse((await ask(`${project}/tables/${name}.json${options}`)).text)

describe('tables of a project', () => {
  test('hold the numbers of the JSON answer, each row standing alone', async () => {
    const elements = await rowsOf('elements')
    const answered = estimate.tracks.flatMap((track) => track.elements.map((element) => ({ track, element })))
    expect(elements).toHaveLength(6)
    for (const [n, { track, element }] of answered.entries())
      expect(elements[n]).toMatchObject({
        track: track.name,
        element: element.index,
        kind: element.kind,
        label: element.label,
        fromMm: element.fromMm,
        lengthMm: element.lengthMm,
        radiusMm: element.radiusMm,
        turn: element.turn,
        leftLengthMm: element.rails.left.lengthMm,
        rightRadiusMm: element.rails.right.radiusMm,
        endYMm: element.end.yMm,
        endHeadingDeg: element.end.headingDeg,
      })

    const bends = await rowsOf('bends')
    const chords = estimate.bends.flatMap((bend) => bend.ordinates.map((chord) => ({ bend, chord })))
    expect(bends).toHaveLength(chords.length)
    for (const [n, { bend, chord }] of chords.entries())
      expect(bends[n]).toMatchObject({
        track: bend.track,
        rail: bend.rail,
        turn: bend.turn,
        measuredRadiusMm: bend.measuredRadiusMm,
        chordMm: chord.chordMm,
        midMm: chord.midMm,
        method: bend.forming.method,
        formingLowMm: bend.forming.band.lowMm,
        formingRadiusMm: bend.forming.formingRadiusMm,
      })

    const pieces = await rowsOf('cut-list')
    const cut = estimate.cutting.sticks.flatMap((stick, s) => stick.pieces.map((piece) => ({ s, stick, piece })))
    expect(
      pieces.map(({ stick, track, rail, fromMm, lengthMm, stickOffcutMm }) => [
        stick,
        track,
        rail,
        fromMm,
        lengthMm,
        stickOffcutMm,
      ]),
    ).toEqual(
      cut.map(({ s, stick, piece }) => [s + 1, piece.track, piece.rail, piece.fromMm, piece.lengthMm, stick.offcutMm]),
    )
    const marks = await rowsOf('bend-marks')
    expect(marks.map(({ bendFromMm, bendToMm, radiusMm }) => [bendFromMm, bendToMm, radiusMm])).toEqual(
      cut.flatMap(({ piece }) => piece.bends.map(({ fromMm, toMm, radiusMm }) => [fromMm, toMm, radiusMm])),
    )

    expect(await rowsOf('joints')).toEqual(estimate.joints.map((joint) => ({ ...joint, ...ORIGIN })))
    const bill = await rowsOf('bill')
    expect(bill.map(({ item, required, amount, currency }) => [item, required, amount, currency])).toEqual(
      estimate.bill.lines.map(({ item, required, amount }) => [item, required, amount && Number(amount), 'USD']),
    )
    const inTables = estimate.findings.map(({ remedy: _, otherRemedies: __, ...finding }: PlanFinding) => finding)
    expect(await rowsOf('findings')).toEqual(inTables.map((finding: object) => ({ ...finding, ...ORIGIN })))
  })

  test('say in each row of which plan, revision and day they are, and what the list comes to', async () => {
    const taxed = { ...PLAN, title: 'Pond', supplies: { sticks: [{ length: '5 ft', price: '14.50' }], taxRatePct: 8 } }
    const post = (json: unknown) => ask('/v1/tables/bill.json', { method: 'POST', json })
    const { bill } = JSON.parse((await ask('/v1/estimates?fields=bill', { method: 'POST', json: taxed })).text)
    const rows: Row[] = JSON.parse((await post(taxed)).text)
    for (const row of rows)
      expect(row).toMatchObject({
        ...{ plan: 'Pond', revision: null, date: '2026-05-31' },
        ...{ billTotal: Number(bill.total), taxRatePct: 8, billTax: Number(bill.tax), billGross: Number(bill.gross) },
      })
    // By hand: the lines that have a price, and 8 % of them, to a cent.
    const sum = rows.reduce((sum, { amount }) => sum + Number(amount), 0)
    expect(sum).toBeGreaterThan(0)
    expect(rows[0]!.billTotal).toBeCloseTo(sum, 9)
    expect(rows[0]!.billTax).toBe(Math.round(sum * 8) / 100)
    expect(rows[0]!.billGross).toBeCloseTo(sum + Math.round(sum * 8) / 100, 9)
    expect((await rowsOf('bill'))[0]).toMatchObject({ ...ORIGIN, billTax: null, billGross: null })
    const stable = await ask(`${project}/bill.csv`)
    expect(stable.text.split('\r\n')[0]).toBe(
      'item,description,lengthMm,unit,required,onHand,toBuy,packSize,packs,unitPrice,amount',
    )
    expect(stable.text.trimEnd().split('\r\n')).toHaveLength(1 + (await rowsOf('bill')).length)
  })

  test('of ready-made track tell where each piece lies, and which curves come bent', async () => {
    const oval = example('oval-of-ready-made-track')
    const rows = async (name: string): Promise<Row[]> =>
      JSON.parse((await ask(`/v1/tables/${name}.json`, { method: 'POST', json: oval })).text)
    const pieces = await rows('ready-made')
    const straight = { element: 0, radiusMm: null, turn: null, angleDeg: null }
    // By hand: 11 ft are two pieces of 5 ft and one that is cut; then six of 30° of 6 ft radius, and the same straight.
    expect(pieces).toHaveLength(12)
    expect(pieces.slice(0, 4)).toEqual([
      expect.objectContaining({ ...straight, track: 'herb bed', fromMm: 0, toMm: 1524, piece: 1, whole: 'whole' }),
      expect.objectContaining({ ...straight, fromMm: 1524, toMm: 3048, piece: 2, lengthMm: 1524, whole: 'whole' }),
      expect.objectContaining({ ...straight, piece: 3, lengthMm: expect.closeTo(304.8, 6), whole: 'cut' }),
      expect.objectContaining({ element: 1, piece: 4, turn: 'left', angleDeg: expect.closeTo(30, 9), whole: 'whole' }),
    ])
    expect(pieces[3]!.radiusMm).toBeCloseTo(6 * 304.8, 9)
    expect(pieces[3]!.name).toContain('12 ft in diameter')
    const bends = await rows('bends')
    for (const { element, readyMade, method, formingRadiusMm, midMm } of bends) {
      expect(readyMade).toBe(element === 1 ? 'yes' : 'no')
      expect([method, formingRadiusMm].map((value) => value === null)).toEqual(Array(2).fill(element === 1))
      expect(midMm).toBeGreaterThan(0)
    }
    expect(new Set(bends.map(({ element }) => element))).toEqual(new Set([1, 3, 4, 5]))
    expect(await rowsOf('ready-made')).toEqual([])
  })

  test('as CSV hold the same, and with units=in inches or fractions of them', async () => {
    for (const name of TABLE_NAMES) {
      const rows = await rowsOf(name)
      const { text, headers } = await ask(`${project}/tables/${name}.csv`)
      expect(headers.get('content-type')).toBe('text/csv; charset=utf-8; header=present')
      const { data } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true })
      expect(data).toHaveLength(rows.length)
      for (const [n, row] of rows.entries())
        for (const [key, value] of Object.entries(row)) {
          const cell = data[n]![key]!
          if (typeof value === 'number') expect(Number(cell)).toBe(value)
          else expect(cell.replace(/^'(?=[=+\-@])/, '')).toBe(value ?? '')
        }
    }
    const inches = await rowsOf('elements', '?units=in')
    const mm = await rowsOf('elements')
    for (const [n, row] of inches.entries()) {
      expect(Object.keys(row)).not.toContain('lengthMm')
      expect(row.lengthIn).toBeCloseTo((mm[n]!.lengthMm as number) / 25.4, 9)
      expect(row.angleDeg).toBe(mm[n]!.angleDeg)
    }
    // By hand: the tangent of 6 ft, the arc of 9 ft radius.
    const fractions = await rowsOf('elements', '?units=in&fraction=32')
    expect([fractions[0]!.lengthFtIn, fractions[2]!.radiusFtIn]).toEqual(['6 ft', '9 ft'])
  })

  test('as a workbook have the list first, in sheets that fit a page, nothing empty', async () => {
    const app = createApp({ store, workers: inThisThread, clock: () => new Date('2026-05-31T23:59:59Z') })
    const response = await app.request(`${project}/workbook.xlsx`)
    expect(response.headers.get('content-disposition')).toBe(
      'attachment; filename="tables.xlsx"; filename*=UTF-8\'\'Pond%20line%20%C3%BC%20tables.xlsx',
    )
    const sheets = await readExcelFile(Buffer.from(await response.arrayBuffer()))
    expect(sheets.map(({ sheet }) => sheet)).toEqual([
      'Shopping list',
      'Cut list',
      'Bend marks',
      'Bends, form',
      'Bends, measure',
      'Joints',
      'Elements',
      'Rails and ends',
      'Findings',
    ])
    const rowsIn = (name: string) => {
      const { data } = sheets.find(({ sheet }) => sheet === name)!
      expect(data.slice(0, 2).map(([cell]) => cell)).toEqual([name, 'Pond "line" ü, revision 1, 2026-05-31'])
      const [header, ...rows] = data.slice(2)
      for (const column of header!.keys()) expect(rows.some((row) => row[column] !== null)).toBe(true)
      return { header: header!, rows }
    }
    for (const [sheet, name, from] of [
      ['Shopping list', 'bill', 0],
      ['Cut list', 'cut-list', 0],
      ['Bend marks', 'bend-marks', 0],
      ['Joints', 'joints', 0],
      ['Elements', 'elements', 0],
      ['Findings', 'findings', 0],
      ['Bends, measure', 'bends', 0],
    ] as const) {
      const table = await rowsOf(name)
      const { header, rows } = rowsIn(sheet)
      for (const [n, row] of table.entries()) {
        const values = new Set<unknown>(Object.values(row))
        for (const column of header.keys())
          expect(values, `${sheet} ${n} ${header[column]}`).toContain(rows[from + n]![column] ?? null)
      }
    }
    const bill = rowsIn('Shopping list').rows.at(-1)!
    expect(bill).toContain(Number(estimate.bill.total))
    // By hand: ties and fasteners have no price in this plan.
    expect(bill.join()).toContain('Total in USD, without 2 items of unknown price')
    expect(rowsIn('Bends, form').rows).toHaveLength(estimate.bends.length)
    expect(rowsIn('Bends, measure').rows).toHaveLength((await rowsOf('bends')).filter(({ midMm }) => midMm).length)
    expect(rowsIn('Elements').header).not.toContain('End x (mm)')
    expect(rowsIn('Rails and ends').rows).toHaveLength(6)
  })

  test('are the same for an unsaved plan', async () => {
    const saved = await ask(`${project}/tables/cut-list.csv`)
    const unsaved = await ask('/v1/tables/cut-list.csv', { method: 'POST', json: PLAN })
    const rows = (text: string) => Papa.parse<string[]>(text).data.map((row) => row.slice(0, -3))
    expect(rows(unsaved.text)).toEqual(rows(saved.text))
    expect(unsaved.headers.get('content-disposition')).toBeNull()
  })

  test('are not sent again to a client that has them, as long as nothing changes', async () => {
    for (const path of [
      `${project}/tables/bill.csv`,
      `${project}/tables/bill.json?units=in`,
      `${project}/workbook.xlsx`,
    ]) {
      const first = await ask(path)
      const tag = first.headers.get('etag')!
      expect(tag).toMatch(/^"[\w-]{27}"$/)
      const again = await ask(path, { headers: { 'If-None-Match': tag } })
      expect([again.status, again.text, again.headers.get('etag')]).toEqual([304, '', tag])
      expect((await ask(path, { headers: { 'If-None-Match': '"other"' } })).status).toBe(200)
      const head = await ask(path, { method: 'HEAD' })
      expect([head.status, head.text, head.headers.get('etag')]).toEqual([200, '', tag])
    }
  })

  test('can be read in parts, each leading to the next, which together are the whole', async () => {
    for (const format of ['csv', 'json']) {
      const whole = await ask(`${project}/tables/elements.${format}?units=in`)
      expect(whole.headers.get('link')).toBeNull()
      const parts: string[] = []
      let path: string | undefined = `${project}/tables/elements.${format}?rows=4&units=in`
      while (path) {
        const part = await ask(path)
        expect(part.status).toBe(200)
        parts.push(part.text)
        path = /^<(\/v1\/.*)>; rel="next"$/.exec(part.headers.get('link') ?? '')?.[1]
      }
      expect(parts).toHaveLength(2)
      if (format === 'json') expect(parts.flatMap((part) => JSON.parse(part))).toEqual(JSON.parse(whole.text))
      else expect(parts[0] + parts[1]!.replace(/^.*\r\n/, '')).toBe(whole.text)
    }
    expect(await rowsOf('elements', '?from=7')).toEqual([])
    expect((await rowsOf('elements', '?from=6&rows=9'))[0]).toEqual((await rowsOf('elements'))[5])
    expect(placesIn(await ask(`${project}/tables/elements.csv?from=0&rows=1.5`)).sort()).toEqual(['from', 'rows'])
  })

  test('what does not go together is refused, every fault at once', async () => {
    const csv = await ask(`${project}/tables/bill.csv?fraction=16&decimal=comma&sep=coma&bom=yes&colour=red`)
    expect(csv.status).toBe(400)
    expect(placesIn(csv).sort()).toEqual(['bom', 'colour', 'sep'])
    const contradictory = await ask(`${project}/tables/bill.csv?fraction=16&decimal=comma`)
    expect(placesIn(contradictory).sort()).toEqual(['decimal', 'fraction'])
    expect((await ask(`${project}/tables/bill.csv?decimal=comma&sep=semicolon&refresh=7`)).status).toBe(200)
    const json = await ask(`${project}/tables/bill.json?sep=tab&bom=1`)
    expect(placesIn(json).sort()).toEqual(['bom', 'sep'])
    expect(placesIn(await ask(`${project}/workbook.xlsx?sep=tab`))).toEqual(['sep'])
    const unknown = await ask(`${project}/tables/rails.csv`)
    expect(unknown.status).toBe(404)
    expect(problemIn(unknown).detail).toContain('cut-list')
    expect((await ask(`${project}/tables/bill`)).status).toBe(404)
    const plain = await ask(`${project}/tables/bill.json`, { headers: { Accept: 'text/csv' } })
    expect(plain.status).toBe(406)
  })
})
