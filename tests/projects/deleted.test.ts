import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openStore } from '../../src/projects/open-store.ts'
import { Purging } from '../../src/projects/purging.ts'
import { type NeededStock, type ProjectStore, reservingStore } from '../../src/projects/store.ts'
import { NOTHING, type Stock } from '../../src/shed/stock.ts'
import { databaseKinds, type TestDatabase } from '../servers/databases.ts'

const sticks = (count: number): Stock => ({
  ...NOTHING,
  sticks: [{ section: '250', material: 'brass', lengthMm: 1524, count }],
})
const countIn = (stock: Stock) => stock.sticks[0]?.count ?? 0
const NOBODY = '01890a5d-ac96-774b-bcce-b302099a8057'

/** A plan takes the sticks that it wants, as far as there are any. */
const claim: NeededStock = (plan, free) => {
  const count = Math.min(Number(plan.want), countIn(free))
  return count === 0 ? NOTHING : sticks(count)
}

describe.each(databaseKinds())('a deleted project on $name', (kind) => {
  let database: TestDatabase
  let plain: ProjectStore
  let store: ProjectStore

  async function open() {
    plain = await openStore(database.place, { onProgress: () => {} })
    store = reservingStore(plain, claim)
  }

  beforeEach(async () => {
    database = await kind.make()
    await open()
  })
  afterEach(async () => {
    await plain.close()
    await database.dispose()
  })

  /** Changes rows past the store. */
  async function changed(statement: string) {
    await plain.close()
    await database.sql((query) => query(statement))
    await open()
  }

  const content = (name: string, want = 0) => ({ name, notes: '', plan: { want } })
  const names = async (deleted: boolean) =>
    (await store.list({ limit: 9, after: null, deleted })).items.map(({ name }) => name)

  test('is found by nothing but its list, and is afterwards what it was', async () => {
    await store.restock(sticks(3), 'any')
    const { id } = await store.create(content('first', 2))
    await store.build(id, 'any', (_, taken) => ({ ok: true, taken, returned: NOTHING }))
    await store.replace(id, content('second', 1), 'any')
    const project = await store.get(id)
    await store.addLink(id, 'sheet', 'x'.repeat(43))
    await store.notePurchases(id, [{ item: 'tie', quantity: 2 }])
    await store.createOnce('key', 'hash', content('other'))
    const [links, builds, revisions] = [await store.links(id), await store.builds(id), await store.revisions(id)]

    expect(await store.remove(id, [2])).toEqual({ outcome: 'done', value: null })
    expect([await names(false), await names(true)]).toEqual([['other'], ['second']])
    const [listed] = (await store.list({ limit: 9, after: null, deleted: true })).items
    expect(Math.abs(Date.parse(listed!.deletedAt!) - Date.now())).toBeLessThan(60_000)
    for (const none of [
      await store.get(id),
      await store.revisions(id),
      await store.revision(id, 1),
      await store.builds(id),
      await store.links(id),
      await store.linked('x'.repeat(43)),
    ])
      expect(none).toBeNull()
    expect(await store.purchases(id)).toEqual([])
    expect(await store.reserved(id, 1)).toEqual(NOTHING)
    expect(await store.removeLink(id, links![0]!.id)).toBe(false)
    expect(await store.notePurchases(id, [])).toBe(false)
    const missing = { outcome: 'missing' }
    expect(await store.addLink(id, 'x', 'y'.repeat(43))).toEqual(missing)
    expect(await store.replace(id, content('x'), 'any')).toEqual(missing)
    expect(await store.remove(id, 'any')).toEqual(missing)
    expect(await store.build(id, 'any', () => ({ ok: true, taken: NOTHING, returned: NOTHING }))).toEqual(missing)

    expect(await store.restore(id)).toEqual(project)
    expect(await store.restore(id)).toEqual(project)
    expect([await names(false), await names(true)]).toEqual([['other', 'second'], []])
    expect(await store.get(id)).toEqual(project)
    expect([await store.builds(id), await store.revisions(id)]).toEqual([builds, revisions])
    expect(await store.purchases(id)).toEqual([{ item: 'tie', quantity: 2 }])
    expect(await store.linked('x'.repeat(43))).toEqual(project)
    expect((await store.links(id))?.map(({ label }) => label)).toEqual(['sheet'])
    for (const none of [NOBODY, 'x', '']) expect(await store.restore(none)).toBeNull()
  })

  test('frees its stock at once, and takes what is left of it when it is restored', async () => {
    await store.restock(sticks(5), 'any')
    const [older, younger] = [await store.create(content('older', 3)), await store.create(content('younger', 4))]
    const reserved = async () =>
      Promise.all([older, younger].map(async ({ id }) => countIn(await store.reserved(id, 1))))
    expect(await reserved()).toEqual([3, 2])
    await store.remove(older.id, 'any')
    expect(await reserved()).toEqual([0, 4])
    expect(countIn(await store.freeStock())).toBe(1)
    await store.restock(sticks(6), 'any')
    expect(await reserved()).toEqual([0, 4])
    await store.restore(older.id)
    expect(await reserved()).toEqual([3, 3])
    await store.remove(older.id, 'any')
    await store.build(younger.id, 'any', (_, taken) => ({ ok: true, taken, returned: NOTHING }))
    await store.restore(older.id)
    expect(await reserved()).toEqual([2, 4])
    expect(countIn(await store.freeStock())).toBe(0)
  })

  test('is not created again by a late repetition', async () => {
    const created = await store.createOnce('key', 'hash', content('once'))
    if (created.outcome !== 'done') throw new Error(created.outcome)
    await store.remove(created.value.id, 'any')
    expect(await store.createOnce('key', 'hash', content('once'))).toEqual({ outcome: 'missing' })
    await store.restore(created.value.id)
    expect(await store.createOnce('key', 'hash', content('once'))).toMatchObject({ outcome: 'done' })
  })

  test('is removed after 30 days, not before, and never while the clock is behind what was recorded', async () => {
    const [old, recent] = [await store.create(content('old')), await store.create(content('recent'))]
    await store.create(content('kept'))
    for (const { id } of [old, recent]) await store.remove(id, 'any')
    expect(await store.purge()).toBe(0)
    const deletedAgo = (id: string, days: number) =>
      `update projects set deleted_at = now() - interval '${days} days' where id = '${id}'`
    await changed(deletedAgo(old.id, 30.01))
    await changed(deletedAgo(recent.id, 29.99))

    const ahead = `update shed set updated_at = now() + interval '1 hour'`
    await changed(ahead)
    expect(await store.purge()).toBe(0)
    await changed('update shed set updated_at = now()')
    expect(await store.purge()).toBe(1)
    expect([await names(false), await names(true)]).toEqual([['kept'], ['recent']])
    expect(await store.restore(old.id)).toBeNull()
    expect((await store.restore(recent.id))?.name).toBe('recent')
  })

  test('counts from the latest time that was recorded, where the clock is behind it', async () => {
    const { id } = await store.create(content('x'))
    await changed(`update shed set updated_at = now() + interval '90 days'`)
    await store.remove(id, 'any')
    const [listed] = (await store.list({ limit: 9, after: null, deleted: true })).items
    expect(Date.parse(listed!.deletedAt!)).toBeGreaterThan(Date.now() + 89 * 24 * 3_600_000)
  })
})

describe('purging', () => {
  const HOUR = 3_600_000

  function purging(purge: () => Promise<number>) {
    const clock = { nowMs: 1e12, passedMs: 0 }
    const said: string[] = []
    const say = (_: object, text: string) => void said.push(text)
    const store = { purge } as unknown as ProjectStore
    const clocks = { now: () => clock.nowMs, passed: () => clock.passedMs }
    const purger = new Purging(store, { info: say, warn: say }, clocks)
    const sweep = async (nowMs: number, passedMs = nowMs) => {
      clock.nowMs += nowMs
      clock.passedMs += passedMs
      return purger.sweep()
    }
    return { purger, sweep, said }
  }

  test('waits for an hour in which nobody has set the clock', async () => {
    const { purger, sweep, said } = purging(async () => 2)
    expect(await sweep(56 * 365 * 24 * HOUR, HOUR)).toBe(0)
    expect(await sweep(HOUR)).toBe(2)
    expect(await sweep(-HOUR, HOUR)).toBe(0)
    expect(await sweep(HOUR + 60_000, HOUR)).toBe(2)
    expect(said).toHaveLength(2)
    purger.close()
  })

  test('goes on when the database has failed', async () => {
    let fails = true
    const { purger, sweep, said } = purging(async () => {
      if (fails) throw new Error('the database is gone')
      return 1
    })
    expect(await sweep(HOUR)).toBe(0)
    fails = false
    expect(await sweep(HOUR)).toBe(1)
    expect(said).toEqual([expect.stringContaining('could not be removed'), expect.stringContaining('are removed')])
    purger.close()
  })
})
