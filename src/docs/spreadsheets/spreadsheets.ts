import type { Context, Hono } from 'hono'
import { ownAddress } from '../../access/own-address.ts'
import { problem } from '../../api/problem.ts'
import { liveWorkbook } from '../../paper/live-workbook/workbook.ts'
import { EXAMPLE_CELL } from './example.ts'
import { guidePage, type Shows } from './guide-page.ts'
import { type LiveCell, liveCells } from './live-cells.ts'
import { OF_TRACK, TRACK } from './whole-track.ts'

/** Requests a path of the JSON interface. */
export type GetFromApi = (path: string) => Promise<Response>

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'

/** The guide for spreadsheets and the ready workbook, both with the address of the service as the reader sees it. */
export function mountSpreadsheetGuide(docs: Hono, getFromApi: GetFromApi, policy: string): void {
  const answerTo = async (path: string) => {
    const answer = await getFromApi(path)
    if (answer.status !== 200) throw new Error(`the guide shows ${path}, which answers ${answer.status}`)
    return answer.text()
  }
  // The answers of cells depend only on the program, so each is requested once.
  let shown: { readonly cells: readonly LiveCell[]; readonly shows: Shows } | undefined

  docs.get('/docs/spreadsheets', async (c) => {
    const base = ownAddress(c)
    if (base === null) return refuse(c)
    shown ??= { cells: await liveCells(answerTo), shows: await shownBy(answerTo) }
    c.header('Content-Security-Policy', policy)
    return c.html(guidePage({ base, ...shown }))
  })

  docs.get('/docs/spreadsheets/longchord.xlsx', async (c) => {
    const base = ownAddress(c)
    if (base === null) return refuse(c)
    return c.body(await liveWorkbook(base), 200, {
      'Content-Type': XLSX,
      'Content-Disposition': 'attachment; filename="longchord.xlsx"',
    })
  })
}

async function shownBy(answerTo: (path: string) => Promise<string>): Promise<Shows> {
  const ordinate = (query: string) => answerTo(`${EXAMPLE_CELL}&${query}`)
  return {
    chordOf500: await ordinate('diameter=20ft&chord=500'),
    chordOf500point5: await ordinate('diameter=20ft&chord=500.5'),
    ties: await answerTo(`/v1/cell/ties?track=${TRACK}`),
    cost: await answerTo(`/v1/cell/cost?${OF_TRACK}&track=${TRACK}`),
    error: await ordinate('diameter=wide&chord=500&errors=cell'),
  }
}

function refuse(c: Context) {
  return problem(c, {
    kind: 'bad-parameter',
    detail: 'The Host header is not the name of a machine, with or without a port.',
  })
}
