import type { OpenAPIHono } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { ownAddress } from '../../../access/own-address.ts'
import { callingWorkbook } from '../../../paper/calling-workbook/workbook.ts'
import { problem } from '../../problem.ts'
import { ASKED } from './example.ts'
import { guidePage, type Shows } from './guide-page.ts'
import { type Ask, type LiveCell, liveCells } from './live-cells.ts'
import { OF_TRACK, TRACK } from './whole-track.ts'

const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'

/** The guide for spreadsheets and the workbook that is ready to use, both with the address the reader sees the service at. */
export function mountSpreadsheetGuide(api: OpenAPIHono, policy: string): void {
  const ask = async (path: string) => {
    const answer = await api.request(path)
    if (answer.status !== 200) throw new Error(`the guide shows ${path}, which answers ${answer.status}`)
    return answer.text()
  }
  // What cells answer depends on nothing but the program, so once is enough.
  let told: { readonly cells: readonly LiveCell[]; readonly shows: Shows } | undefined

  api.get('/docs/spreadsheets', async (c) => {
    const base = ownAddress(c)
    if (base === null) return refuse(c)
    told ??= await tell(api, ask)
    c.header('Content-Security-Policy', policy)
    return c.html(guidePage({ base, ...told }))
  })

  api.get('/docs/spreadsheets/longchord.xlsx', async (c) => {
    const base = ownAddress(c)
    if (base === null) return refuse(c)
    return c.body(await callingWorkbook(base), 200, {
      'Content-Type': XLSX,
      'Content-Disposition': 'attachment; filename="longchord.xlsx"',
    })
  })
}

async function tell(api: OpenAPIHono, ask: Ask) {
  const of = (query: string) => ask(`${ASKED}&${query}`)
  return {
    cells: await liveCells(api, ask),
    shows: {
      chordOf500: await of('diameter=20ft&chord=500'),
      chordOf500point5: await of('diameter=20ft&chord=500.5'),
      ties: await ask(`/v1/cell/ties?track=${TRACK}`),
      cost: await ask(`/v1/cell/cost?${OF_TRACK}&track=${TRACK}`),
      complaint: await of('diameter=wide&chord=500&errors=cell'),
    },
  }
}

function refuse(c: Context) {
  return problem(c, {
    kind: 'bad-parameter',
    detail: 'The Host header is not the name of a machine, with or without a port.',
  })
}
