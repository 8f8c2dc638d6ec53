import { writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { randomFrom } from '../random.ts'
import { changedSizes, planOf, randomSizes, type Sizes } from './dimensions.ts'
import { watchLiveness } from './livez.ts'
import { posted, type WorstRequest } from './requests.ts'
import { sendTo } from './send.ts'
import { startService } from './service.ts'

/*
 * Looks for the request that holds the thread which answers for longest: begins with plans at random and climbs from each
 * by small changes, as long as others wait longer for it.
 *
 *     npm run test:search [minutes] [seed]
 */

const minutes = Number(process.argv[2] ?? 30)
const seed = Number(process.argv[3] ?? 1)
/** No request may hold others for longer. */
const MOST_HELD_MS = 200
/** Changes in a row that do not help, after which it begins somewhere else. */
const PATIENCE = 20
const BEGINNINGS = 6
/** What takes longer is long work in another thread by then; nothing more is learnt from it. */
const LONGEST_MS = 2_500
/** A measurement counts only as far as it is found again. */
const AGAIN = 2

const PATHS = [
  '/v1/estimates',
  '/v1/estimates?fields=bill',
  '/v1/tables/bends.csv',
  '/v1/tables/cut-list.json',
  '/v1/workbook.xlsx',
  '/v1/setting-outs',
  '/v1/comparisons',
] as const

interface Tried {
  readonly path: (typeof PATHS)[number]
  readonly sizes: Sizes
}

const random = randomFrom(seed)
const endMs = performance.now() + minutes * 60_000
let service = await startService()

function requestOf({ path, sizes }: Tried): WorstRequest {
  const plan = planOf(sizes)
  if (path === '/v1/setting-outs') return posted(path, path, () => ({ plan, interval: 300 }))
  if (path === '/v1/comparisons')
    return posted(path, path, () => ({ plan, materials: [{ material: 'steel' }, { material: 'aluminium' }] }))
  return posted(path, path, () => plan)
}

async function heldOnce(tried: Tried): Promise<{ heldMs: number; status: number | string }> {
  if (service.dead()) {
    console.log(`The service ended. ${JSON.stringify(tried)}`)
    service = await startService()
  }
  const watch = watchLiveness(service.url, 5)
  const { status } = await sendTo(service.url, requestOf(tried), LONGEST_MS)
  const { worstMs } = await watch.stop()
  return { heldMs: worstMs, status }
}

/** How long others wait at least, each time it is sent. */
async function heldFor(tried: Tried, atLeastMs: number) {
  let found = await heldOnce(tried)
  for (let left = AGAIN; left > 0 && found.heldMs > atLeastMs; left--) {
    const again = await heldOnce(tried)
    if (again.heldMs < found.heldMs) found = again
  }
  return found
}

const beginning = (): Tried => ({ path: PATHS[Math.floor(random() * PATHS.length)]!, sizes: randomSizes(random) })

let worst = { tried: beginning(), heldMs: 0, status: 0 as number | string }
let asked = 0
await heldOnce(worst.tried)
while (performance.now() < endMs) {
  let here = { tried: beginning(), heldMs: 0, status: 0 as number | string }
  let failed = 0
  for (let n = 0; failed < PATIENCE && performance.now() < endMs; n++) {
    const tried =
      n < BEGINNINGS
        ? beginning()
        : {
            path: random() < 0.1 ? beginning().path : here.tried.path,
            sizes: changedSizes(here.tried.sizes, random),
          }
    const found = await heldFor(tried, here.heldMs)
    asked++
    if (found.heldMs > here.heldMs) {
      here = { tried, ...found }
      failed = 0
    } else failed++
  }
  if (here.heldMs > worst.heldMs) worst = here
  console.log(`${asked} asked; here ${here.heldMs.toFixed(0)} ms (${here.status}), worst ${worst.heldMs.toFixed(0)} ms`)
}
const { sizes, path } = worst.tried
const file = join(tmpdir(), `longchord-worst-${seed}.json`)
writeFileSync(file, requestOf(worst.tried).body!())
console.log(`Seed ${seed}, ${asked} requests. Held for longest: ${worst.heldMs.toFixed(0)} ms, answered ${worst.status}, by
POST ${path} of ${file}, made of ${JSON.stringify(sizes)}`)
service.stop()
process.exitCode = worst.heldMs > MOST_HELD_MS ? 1 : 0
