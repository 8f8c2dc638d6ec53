import { describe, expect, test } from 'vitest'
import writeExcelFile from 'write-excel-file/node'
import { XLSX } from '../../src/api/tables-answer.ts'
import { appWithoutStore, asking, placesIn, planWith, problemIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const csv = (body: string, query = 'section=250&material=brass') =>
  ask(`/v1/estimates?${query}`, { method: 'POST', headers: { 'Content-Type': 'text/csv; charset=utf-8' }, body })

const TRACK =
  'kind,length,diameter (ft),angle,turn,label\ntangent,6 ft,,,,\narc,,18,45,left,"round, slowly"\ntangent,1.2 m,,,,\n'
const PLAN = {
  rail: { section: '250', material: 'brass', temper: 'half-hard' },
  tracks: [
    {
      name: 'main',
      joinsExisting: { start: true },
      elements: [
        { kind: 'tangent', length: '6 ft' },
        { kind: 'arc', diameter: '18 ft', angle: 45, turn: 'left', label: 'round, slowly' },
        { kind: 'tangent', length: '1.2 m' },
      ],
    },
  ],
  supplies: { sticks: [{ length: '5 ft', price: '14.50' }], joiners: { packSize: 10, pricePerPack: '9' }, kerf: 1 },
  standards: { longestCar: '28 in' },
}
const QUERY =
  'section=250&material=brass&temper=half-hard&name=main&start=joined&stick=5ft&stickPrice=14.50&joinerPack=10&joinerPrice=9&kerf=1&longestCar=28in'

describe('a track as a table', () => {
  test('is answered as the same plan in JSON is, to the last byte', async () => {
    const table = await csv(TRACK, QUERY)
    const plan = await ask('/v1/estimates', { method: 'POST', json: PLAN })
    expect(plan.status).toBe(200)
    expect(table.text).toBe(plan.text)
  })

  test('comes as a workbook too', async () => {
    const bytes = await writeExcelFile([
      ['kind', 'length (ft)', 'diameter (ft)', 'angle', 'turn'],
      ['tangent', 6, null, null, null],
      ['arc', null, 18, 45, 'left'],
    ] as never).toBuffer()
    const answer = await ask('/v1/estimates?section=250&material=brass', {
      method: 'POST',
      headers: { 'Content-Type': XLSX },
      body: new Uint8Array(bytes),
    })
    expect(answer.status).toBe(200)
    expect(JSON.parse(answer.text).tracks[0].elements).toHaveLength(2)
  })

  test('with faults names row and column of each, and the parameters beside it', async () => {
    const answer = await csv(
      'kind,length,radius,angle,turn\ntangent,six feet,,,\narc,,20,45,left\narc,,3 m,45,up\ncurv,,,,\n',
      'section=250&kerf=-1',
    )
    expect(answer.status).toBe(422)
    const { errors } = problemIn(answer)
    const places = errors.map((error) => ('parameter' in error ? error.parameter : `${error.column ?? ''}${error.row}`))
    expect(places.sort()).toEqual(['A5', 'B2', 'C3', 'E4', 'kerf', 'material'].sort())
    const length = errors.find((error) => 'row' in error && error.row === 2)!
    expect(length).toMatchObject({ pointer: '/1/1', code: 'bad-length', column: 'B' })
    expect(length.detail).toMatch(/^cell B2: /)
  })

  test('what a column lacks is told of its row', async () => {
    const answer = await csv('kind,radius,angle\narc,3 m,45\n')
    const [error] = problemIn(answer).errors
    expect(error).toMatchObject({ pointer: '/1', row: 2, column: null, code: 'missing' })
    expect(error!.detail).toMatch(/^row 2: turn: /)
  })

  test('what is not read is not missed besides, and what a kind has not is told in words of a table', async () => {
    const places = async (body: string) =>
      problemIn(await csv(body)).errors.map((error) =>
        'row' in error ? `${error.column}${error.row} ${error.code}` : '',
      )
    const header = 'kind,length,radius,diameter,angle,turn\n'
    expect(await places(`${header}arc,long,3 m,,,left`)).toEqual(['B2 bad-length'])
    expect(await places(`${header}arc,,,wide,45,left`)).toEqual(['D2 bad-length'])
    expect(await places(`${header}arc,,3 m,,,left`)).toEqual(['E2 missing'])
    const [straight] = problemIn(await csv(`${header}straight,6 ft,3 m,,,`)).errors
    expect(straight).toMatchObject({
      column: 'C',
      detail: 'cell C2: a tangent has no radius',
      hint: 'leave the cell empty',
    })
    const [total] = problemIn(await csv(`${header}tangent,600,,,,\n,600,,,,`)).errors
    expect(total).toMatchObject({
      row: 3,
      column: 'A',
      code: 'missing',
      hint: expect.stringContaining('leave the row empty'),
    })
  })

  test('may be in the encoding its Content-Type tells', async () => {
    const latin = Uint8Array.from('kind,length,label\ntangent,600,Br\u00fccke', (sign) => sign.charCodeAt(0))
    const sent = (type: string) =>
      ask('/v1/estimates?section=250&material=brass', {
        method: 'POST',
        headers: { 'Content-Type': type },
        body: latin,
      })
    const answer = await sent('text/csv; charset="iso-8859-1"; header=present')
    expect(JSON.parse(answer.text).tracks[0].elements[0].label).toBe('Br\u00fccke')
    expect((await sent('text/csv')).status).toBe(422)
    const unknown = await sent('text/csv; charset=nobodys')
    expect([unknown.status, placesIn(unknown)]).toEqual([415, ['Content-Type']])
  })

  test('that is sound, with parameters that are not, is a bad request', async () => {
    const answer = await csv(TRACK, 'section=250&material=brass&temper=hard&colour=red')
    expect(answer.status).toBe(400)
    expect(placesIn(await csv(TRACK, 'section=250'))).toEqual(['material'])
    expect(placesIn(await csv(TRACK, 'section=250&material=brass&stick=5ft&stick=60in'))).toEqual(['stick'])
  })

  test('is no table at all', async () => {
    for (const body of ['', '\n\n', 'kind', 'a;b;c\n1;2;3']) expect((await csv(body)).status).toBe(422)
    expect((await csv(`kind,length\n${'tangent,1\n'.repeat(7_000)}`)).status).toBe(422)
    expect((await csv('x'.repeat(1024 * 1024 + 1))).status).toBe(413)
  })

  test('a plan in JSON says for itself what the parameters say', async () => {
    const answer = await ask('/v1/estimates?kerf=2&material=brass', { method: 'POST', json: planWith() })
    expect(answer.status).toBe(400)
    expect(placesIn(answer).sort()).toEqual(['kerf', 'material'])
    expect((await ask('/v1/estimates?refresh=1', { method: 'POST', json: planWith() })).status).toBe(200)
    const other = await ask('/v1/estimates', { method: 'POST', headers: { 'Content-Type': 'text/plain' }, body: TRACK })
    expect(other.status).toBe(415)
    expect(problemIn(other).errors[0]!.hint).toContain('text/csv')
    const old = { method: 'POST', headers: { 'Content-Type': 'application/vnd.ms-excel' }, body: TRACK }
    expect((await ask('/v1/estimates?section=250&material=brass', old)).status).toBe(415)
  })
})
