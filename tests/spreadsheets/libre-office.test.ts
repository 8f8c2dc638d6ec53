import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { running, type Service } from '../service/running.ts'
import { type Office, startOffice } from './libre-office.ts'

/** Fields separated by commas, texts quoted, UTF-8, from row 1, numbers as in en-US whatever the office is set to. */
const CSV_OPTIONS = '44,34,76,1,,1033,false,true'

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
  test('is set to a locale: a decimal comma is one in de-DE alone', async () => {
    const enter = [['A1', '=VALUE("1,5")']] as const
    expect(await office.read({ locale: 'de-DE', enter })).toEqual({ Sheet1: { A1: { kind: 'number', value: 1.5 } } })
    expect(await office.read({ locale: 'en-US', enter })).toMatchObject({ Sheet1: { A1: { kind: 'error' } } })
  })

  test.each(['en-US', 'de-DE'] as const)(
    'links a table at a cell, with its numbers as numbers, in %s',
    async (locale) => {
      const address = `${service.url}/v1/bends.csv?diameter=20ft&section=250&chord=500`
      const [header, ...rows] = (await (await fetch(address)).text()).trim().split('\r\n')
      const { Sheet1 } = await office.read({ locale, link: { cell: 'B2', address, options: CSV_OPTIONS } })
      const column = (name: string) => String.fromCharCode('B'.charCodeAt(0) + header!.split(',').indexOf(name))
      for (const [index, row] of rows.entries()) {
        const midMm = Number(row.split(',')[header!.split(',').indexOf('midMm')])
        expect(midMm).toBeGreaterThan(10)
        expect(Sheet1![`${column('midMm')}${index + 3}`]).toEqual({ kind: 'number', value: midMm })
      }
      expect(rows).toHaveLength(2)
    },
  )
})
