import { fork } from 'node:child_process'
import { once } from 'node:events'
import autocannon from 'autocannon'
import { bundled } from './bundled.ts'
import { line } from './measuring.ts'

const CELLS = 1_000
/** A spreadsheet asks over few connections at a time; browsers allow six, this is more. */
const CONNECTIONS = 16

/** A spreadsheet's cells: curves of all sizes, and the numbers of whole tracks, each of them different. */
function sheet(): string[] {
  return Array.from({ length: CELLS }, (_, n) => {
    const track = `S${600 + n}_Ld${18 + (n % 7)}ft-a45_S1p2m_Rr${2500 + n}-a30`
    const kinds = [
      `mid-ordinate?diameter=${10 + (n % 40)}ft&chord=${300 + n}`,
      `level-rise?grade=${(n % 30) / 10}&length=4ft`,
      `forming-radius?radius=${1500 + n}&material=brass&temper=half-hard`,
      `ties?length=${1000 + n}`,
      `gap?material=stainless&length=${900 + n}&laying=15&hottest=35`,
      `rail-length?track=${track}`,
      `sticks?track=${track}&stick=6ft&stickPrice=16`,
      `joiners?track=${track}&stick=6ft&stickPrice=16`,
    ]
    return `/v1/cell/${kinds[n % kinds.length]}`
  })
}

/** All cells of a sheet at once, then one cell beside the shortest answer of the bare framework. */
export async function cells(): Promise<void> {
  const child = fork(await bundled('served'))
  const [{ bare, service }] = (await once(child, 'message')) as [{ bare: string; service: string }]
  const paths = sheet()
  console.log(`\n${CELLS} cells of a spreadsheet recalculated at once, over ${CONNECTIONS} connections`)
  for (const round of ['the first time', 'once more']) {
    const result = await autocannon({
      url: service,
      connections: CONNECTIONS,
      amount: CELLS,
      requests: paths.map((path) => ({ method: 'GET' as const, path })),
    })
    if (result.non2xx > 0 || result.errors > 0) throw new Error(`${result.non2xx} cells were refused`)
    const { p50, p97_5, max } = result.latency
    line(`${round}: median, 97.5 %, longest`, `${p50} / ${p97_5} / ${max} ms`)
  }
  const best = { bare: 0, cell: 0 }
  for (let round = 0; round < 3; round++)
    for (const [name, url] of [
      ['bare', `${bare}/text`],
      ['cell', `${service}/v1/cell/mid-ordinate?diameter=20ft&chord=500`],
    ] as const) {
      const { requests, non2xx } = await autocannon({ url, connections: 8, duration: 3 })
      if (non2xx > 0) throw new Error('the cell was refused')
      best[name] = Math.max(best[name], requests.average)
    }
  child.disconnect()
  line('a text of the bare framework', `${best.bare.toFixed(0)} /s`)
  line('a cell', `${best.cell.toFixed(0)} /s`)
  line("a cell's share of the bare framework's text", (best.cell / best.bare).toFixed(2))
}
