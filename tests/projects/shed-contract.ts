import fc from 'fast-check'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { openStore } from '../../src/projects/open-store.ts'
import { type BuildWork, type NeededStock, type ProjectStore, reservingStore } from '../../src/projects/store.ts'
import { isNothing, minus, NOTHING, plus, type Stock, tidy } from '../../src/shed/stock.ts'
import type { DatabaseKind, TestDatabase } from '../servers/databases.ts'

const NOBODY = '01890a5d-ac96-774b-bcce-b302099a8057'
const BRASS = { section: '250', material: 'brass' }
/** Sticks, and as many ready-made pieces of the same length. */
const sticks = (count: number, lengthMm = 1524): Stock => ({
  ...NOTHING,
  sticks: [{ ...BRASS, lengthMm, count }],
  panels: [{ ...BRASS, lengthMm, radiusMm: null, angleDeg: null, ties: 33, count }],
})

/** A plan that wants so many sticks and pieces, and takes as many of them as there are. */
const wanting = (want: number) => ({ want })
const claim: NeededStock = (plan, free) => {
  const there = (rows: readonly { lengthMm: number; count: number }[]) =>
    rows.find(({ lengthMm }) => lengthMm === 1524)?.count ?? 0
  const count = (rows: readonly { lengthMm: number; count: number }[]) => Math.min(Number(plan.want), there(rows))
  return tidy({
    ...NOTHING,
    sticks: sticks(count(free.sticks)).sticks,
    panels: sticks(count(free.panels)).panels,
  })
}

/** Building takes what is reserved and brings back one short stick. */
const work: BuildWork<string> = ({ plan }, reserved) =>
  plan.broken ? { ok: false, reason: 'broken' } : { ok: true, taken: reserved, returned: sticks(1, 300) }

/** What every store keeps to about the shed, whatever database is behind it. */
export function shedContract(kind: DatabaseKind): void {
  describe(`the shed on ${kind.name}`, () => {
    let database: TestDatabase
    let plain: ProjectStore
    let store: ProjectStore

    beforeAll(async () => {
      database = await kind.make()
      plain = await openStore(database.place, { onProgress: () => {} })
      store = reservingStore(plain, claim)
    })
    afterAll(async () => {
      await plain.close()
      await database.dispose()
    })
    beforeEach(async () => {
      const { items } = await store.list({ limit: 200, after: null })
      for (const { id } of items) await store.remove(id, 'any')
      await store.restock(NOTHING, 'any')
    })

    const create = async (want: number, more: object = {}) =>
      (await store.create({ name: `wants ${want}`, notes: '', plan: { ...wanting(want), ...more } })).id
    const counts = async (...ids: string[]) =>
      Promise.all(ids.map(async (id) => countAt(id, (await store.get(id))?.revision ?? 1)))
    const countAt = async (id: string, revision: number) => {
      const { sticks, panels } = await store.reserved(id, revision)
      expect(panels[0]?.count).toBe(sticks[0]?.count)
      return sticks[0]?.count ?? 0
    }

    /** Everything that is promised of reservations at any moment. */
    async function sound(): Promise<void> {
      const { stock } = await store.shed()
      const dealt = (await store.reservations()).map((each) => each.stock)
      minus(stock, dealt.reduce(plus, NOTHING))
      expect(dealt.some(isNothing)).toBe(false)
    }

    test('keeps what was bought for a project, item by item, until it is built or deleted', async () => {
      const [id, other] = [await create(0), await create(0)]
      expect(await store.purchases(id)).toEqual([])
      expect(
        await store.notePurchases(id, [
          { item: 'a', quantity: 2 },
          { item: 'b "\'', quantity: 0.5 },
        ]),
      ).toBe(true)
      expect(await store.notePurchases(other, [{ item: 'a', quantity: 9 }])).toBe(true)
      expect(await store.notePurchases(id, [{ item: 'a', quantity: 3 }])).toBe(true)
      expect(await store.purchases(id)).toEqual([
        { item: 'a', quantity: 3 },
        { item: 'b "\'', quantity: 0.5 },
      ])
      await store.notePurchases(id, [
        { item: 'a', quantity: 0 },
        { item: 'none', quantity: 0 },
      ])
      expect(await store.purchases(id)).toEqual([{ item: 'b "\'', quantity: 0.5 }])
      await store.build(id, 'any', work)
      expect(await store.purchases(id)).toEqual([])
      expect(await store.purchases(other)).toEqual([{ item: 'a', quantity: 9 }])
      await store.remove(other, 'any')
      expect(await store.purchases(other)).toEqual([])
      for (const none of [other, NOBODY, 'x']) expect(await store.notePurchases(none, [])).toBe(false)
      expect(await store.purchases('x')).toEqual([])
    })

    test('keeps the bench cards that are done, revision by revision', async () => {
      const id = await create(0)
      expect(await store.finishedCards(id, 1)).toEqual([])
      for (const card of ['L1 R2: 1524.0 mm', 'a "\'', 'L1 R2: 1524.0 mm'])
        expect(await store.noteCard(id, 1, card, true)).toBe(true)
      expect((await store.finishedCards(id, 1)).toSorted()).toEqual(['L1 R2: 1524.0 mm', 'a "\''])
      await store.replace(id, { name: 'later', notes: '', plan: wanting(0) }, 'any')
      expect(await store.finishedCards(id, 2)).toEqual([])
      expect(await store.noteCard(id, 2, 'L9: 1.0 mm', true)).toBe(true)
      expect(await store.noteCard(id, 1, 'a "\'', false)).toBe(true)
      expect(await store.noteCard(id, 1, 'none', false)).toBe(true)
      expect(await store.finishedCards(id, 1)).toEqual(['L1 R2: 1524.0 mm'])
      for (const [other, revision] of [
        [id, 3],
        [id, 0],
        [id, 0.5],
        [NOBODY, 1],
        ['x', 1],
      ] as const) {
        expect(await store.noteCard(other, revision, 'L1', true)).toBe(false)
        expect(await store.finishedCards(other, revision)).toEqual([])
      }
      await store.remove(id, 'any')
      expect(await store.finishedCards(id, 1)).toEqual([])
      expect(await store.noteCard(id, 1, 'L1', true)).toBe(false)
      await store.restore(id)
      expect(await store.finishedCards(id, 2)).toEqual(['L9: 1.0 mm'])
    })

    test('the list of projects says which revision was built last', async () => {
      const id = await create(0)
      const built = async () => (await store.list({ limit: 1, after: null })).items.map((each) => each.builtRevision)
      expect(await built()).toEqual([null])
      await store.build(id, 'any', work)
      expect(await built()).toEqual([1])
      await store.replace(id, { name: 'x', notes: '', plan: wanting(0) }, 'any')
      expect(await built()).toEqual([1])
      await store.build(id, 'any', work)
      expect(await built()).toEqual([2])
    })

    test('keeps how lengths were written, as long as they are in the stock', async () => {
      await store.restock(sticks(2, 1828.8), 'any', undefined, { '1828.8': '6 ft', '9': '9 mm' })
      expect((await store.shed()).lengthTexts).toEqual({ '1828.8': '6 ft' })
      await store.restock(sticks(3, 1828.8), 'any')
      expect((await store.shed()).lengthTexts).toEqual({ '1828.8': '6 ft' })
      await store.restock(sticks(3, 300), 'any')
      expect((await store.shed()).lengthTexts).toEqual({})
    })

    test('knows what is free: what no project that is still to be built has', async () => {
      await store.restock(sticks(5), 'any')
      expect(await store.freeStock()).toEqual(tidy(sticks(5)))
      await create(2)
      await create(1)
      expect(await store.freeStock()).toEqual(tidy(sticks(2)))
      await create(9)
      expect(await store.freeStock()).toEqual(NOTHING)
    })

    test('keeps what is put in, in its own order, and counts its changes', async () => {
      const before = await store.shed()
      const mixed = {
        ...NOTHING,
        sticks: [...sticks(1, 300).sticks, ...sticks(2).sticks, ...sticks(3).sticks],
        panels: [...sticks(1, 300).panels, ...sticks(2).panels, ...sticks(3).panels],
        insulatedJoiners: [{ ...BRASS, count: 4 }],
        tieStrips: [{ ties: 12, count: 3 }],
        ties: 7,
      }
      const written = await store.restock(mixed, [before.revision])
      expect(written).toMatchObject({ outcome: 'done', value: { revision: before.revision + 1, stock: tidy(mixed) } })
      const { updatedAt, ...shed } = await store.shed()
      expect(shed).toEqual({ lengthTexts: {}, revision: before.revision + 1, stock: tidy(mixed) })
      expect(Date.parse(updatedAt)).toBeGreaterThanOrEqual(Date.parse(before.updatedAt))
    })

    test('is not replaced by who read it before somebody else wrote', async () => {
      const { revision } = await store.shed()
      const outcomes = await Promise.all(Array.from({ length: 10 }, (_, n) => store.restock(sticks(n + 1), [revision])))
      expect(outcomes.filter(({ outcome }) => outcome === 'done')).toHaveLength(1)
      expect(outcomes.filter((each) => each.outcome === 'stale' && each.revision === revision + 1)).toHaveLength(9)
    })

    test('is dealt to the oldest project first, whatever came first, projects or stock', async () => {
      const early = [await create(3), await create(3)]
      expect(await counts(...early)).toEqual([0, 0])
      await store.restock(sticks(7), 'any')
      const late = [await create(4), await create(1)]
      expect(await counts(...early, ...late)).toEqual([3, 3, 1, 0])
      expect((await store.reservations()).map(({ project, name }) => [project, name])).toEqual([
        [early[0], 'wants 3'],
        [early[1], 'wants 3'],
        [late[0], 'wants 4'],
      ])
      await sound()
    })

    test('is reserved again when a project is saved or removed; the older ones keep what they have', async () => {
      await store.restock(sticks(6), 'any')
      const [a, b, c] = [await create(2), await create(3), await create(4)]
      expect(await counts(a, b, c)).toEqual([2, 3, 1])
      await store.replace(b, { name: 'b', notes: '', plan: wanting(1) }, [1])
      expect(await counts(a, b, c)).toEqual([2, 1, 3])
      await store.remove(a, 'any')
      expect(await counts(a, b, c)).toEqual([0, 1, 4])
      await store.restock(sticks(2), 'any')
      expect(await counts(b, c)).toEqual([1, 1])
      await sound()
    })

    test('what an earlier revision had is told as long as the project is there, and is no one’s any more', async () => {
      await store.restock(sticks(6), 'any')
      const [a, b] = [await create(2), await create(6)]
      await store.replace(a, { name: 'a', notes: '', plan: wanting(5) }, [1])
      await store.restock(sticks(4), 'any')
      expect([await countAt(a, 1), await countAt(a, 2), await countAt(b, 1)]).toEqual([2, 4, 0])
      expect((await store.reservations()).map(({ project, stock }) => [project, stock])).toEqual([[a, sticks(4)]])
      await store.build(a, 'any', work)
      await store.replace(a, { name: 'a', notes: '', plan: wanting(0) }, 'any')
      expect([await countAt(a, 1), await countAt(a, 2), await countAt(a, 3)]).toEqual([2, 4, 0])
      await store.remove(a, 'any')
      expect(await countAt(a, 1)).toBe(0)
      await sound()
    })

    test('a write that is refused deals nothing', async () => {
      await store.restock(sticks(2), 'any')
      const id = await create(2)
      expect(await store.replace(id, { name: 'x', notes: '', plan: wanting(0) }, [7])).toMatchObject({
        outcome: 'stale',
      })
      await expect(store.replace(id, { name: '', notes: '', plan: wanting(0) }, [1])).rejects.toMatchObject({
        kind: 'refused',
      })
      expect(await counts(id)).toEqual([2])
    })

    test('is dealt to more projects than are read at a time', async () => {
      const ids: string[] = []
      for (let n = 0; n < 120; n += 1) ids.push(await create(1))
      await store.restock(sticks(110), 'any')
      expect(await counts(...ids)).toEqual(ids.map((_, n) => (n < 110 ? 1 : 0)))
    })

    test('a claim beyond what is free fails and leaves everything as it was', async () => {
      await store.restock(sticks(2), 'any')
      const id = await create(1)
      const greedy = reservingStore(plain, () => sticks(9))
      await expect(greedy.create({ name: 'greedy', notes: '', plan: {} })).rejects.toMatchObject({ name: 'StoreError' })
      expect(await counts(id)).toEqual([1])
      expect((await store.list({ limit: 10, after: null })).items).toHaveLength(1)
    })

    test('what was kept when there were fewer kinds of things has none of the others', async () => {
      const earlier = await kind.make()
      const open = async () => reservingStore(await openStore(earlier.place, { onProgress: () => {} }), claim)
      try {
        const before = await open()
        await before.restock(sticks(5), 'any')
        const create = async () => (await before.create({ name: 'x', notes: '', plan: wanting(2) })).id
        const [built, waiting] = [await create(), await create()]
        await before.build(built, 'any', work)
        await before.close()
        // As an earlier version wrote it.
        const written = ({ sticks, ties }: Partial<Stock>) =>
          `'${JSON.stringify({ sticks, joiners: [], ties, fasteners: 0 })}'`
        const left = { ...sticks(3), ties: 9, panels: [] }
        const had = { ...sticks(2), ties: 1, panels: [] }
        await earlier.sql(async (query) => {
          await query(`update shed set stock = ${written(left)}`)
          await query(`update shed_reservations set stock = ${written(had)} where project_id = '${waiting}'`)
          await query(`update project_builds set taken = ${written(had)}, returned = ${written(had)}`)
        })

        const store = await open()
        expect((await store.shed()).stock).toEqual(left)
        expect(await store.reservations()).toMatchObject([{ project: waiting, stock: had }])
        expect([await store.reserved(waiting, 1), await store.reserved(built, 1)]).toEqual([had, had])
        expect(await store.builds(built)).toMatchObject([{ taken: had, returned: had }])
        // It is dealt on and built with as ever.
        const { id } = await store.create({ name: 'late', notes: '', plan: wanting(4) })
        expect(await store.reserved(id, 1)).toEqual({ ...sticks(1), panels: [] })
        expect(await store.build(waiting, 'any', work)).toMatchObject({ outcome: 'done', value: { taken: had } })
        expect((await store.shed()).stock).toEqual(tidy(plus({ ...sticks(1), ties: 8, panels: [] }, sticks(1, 300))))
        await store.close()
      } finally {
        await earlier.dispose()
      }
    })

    describe('building', () => {
      test('takes what was reserved, brings back what is left, and reserves again', async () => {
        await store.restock(sticks(5), 'any')
        const [a, b] = [await create(3), await create(4)]
        const { revision } = await store.shed()
        const built = await store.build(a, 'any', work)
        expect(built).toMatchObject({
          outcome: 'done',
          value: { revision: 1, taken: sticks(3), returned: sticks(1, 300) },
        })
        const shed = await store.shed()
        expect(shed).toMatchObject({ revision: revision + 1, stock: tidy(plus(sticks(2), sticks(1, 300))) })
        expect((await store.reservations()).map(({ project }) => project)).toEqual([b])
        // Its estimate still reads as it was built; the sticks are no one else's, they are gone from the shed.
        expect(await counts(a, b)).toEqual([3, 2])
        expect(await store.builds(a)).toEqual([built.outcome === 'done' && built.value])
        expect(await store.builds(b)).toEqual([])
        await sound()
      })

      test('the same revision twice is told, ten at a time too; a new revision may be built', async () => {
        await store.restock(sticks(5), 'any')
        const id = await create(1)
        const outcomes = await Promise.all(Array.from({ length: 10 }, () => store.build(id, 'any', work)))
        expect(outcomes.map(({ outcome }) => outcome).toSorted()).toEqual([...Array(9).fill('built-before'), 'done'])
        expect((await store.shed()).stock).toEqual(tidy(plus(sticks(4), sticks(1, 300))))
        await store.replace(id, { name: 'more', notes: '', plan: wanting(2) }, 'any')
        expect(await counts(id)).toEqual([2])
        expect(await store.build(id, [1], work)).toEqual({ outcome: 'stale', revision: 2 })
        expect(await store.build(id, [2], work)).toMatchObject({
          outcome: 'done',
          value: { revision: 2, taken: sticks(2) },
        })
        expect((await store.builds(id))!.map(({ revision }) => revision)).toEqual([1, 2])
      })

      test('what is not there, or cannot be worked out, changes nothing', async () => {
        await store.restock(sticks(5), 'any')
        const before = await store.shed()
        for (const id of [NOBODY, 'x']) {
          expect(await store.build(id, 'any', work)).toEqual({ outcome: 'missing' })
          expect(await store.builds(id)).toBeNull()
          for (const revision of [1, 0, Number.NaN]) expect(await store.reserved(id, revision)).toEqual(NOTHING)
        }
        const id = await create(1, { broken: true })
        expect(await store.build(id, 'any', work)).toEqual({ outcome: 'refused', reason: 'broken' })
        const thief: BuildWork<string> = () => ({ ok: true, taken: sticks(2), returned: NOTHING })
        await expect(store.build(id, 'any', thief)).rejects.toMatchObject({ name: 'StoreError' })
        expect(await store.shed()).toEqual(before)
        expect(await store.builds(id)).toEqual([])
      })

      test('a removed project takes its builds along; what it took stays out of the shed', async () => {
        await store.restock(sticks(5), 'any')
        const id = await create(2)
        await store.build(id, 'any', work)
        await store.remove(id, 'any')
        expect(await store.builds(id)).toBeNull()
        expect((await store.shed()).stock).toEqual(tidy(plus(sticks(3), sticks(1, 300))))
      })
    })

    test('many writers at once never leave a stick to two projects', async () => {
      await store.restock(sticks(20), 'any')
      const ids = await Promise.all(Array.from({ length: 8 }, (_, n) => create(n)))
      await Promise.all([
        ...ids.map((id, n) => store.replace(id, { name: `again ${n}`, notes: '', plan: wanting(8 - n) }, 'any')),
        store.restock(sticks(15), 'any'),
        store.build(ids[3]!, 'any', work),
        store.remove(ids[0]!, 'any'),
        ...Array.from({ length: 4 }, () => create(3)),
      ])
      await sound()
    })

    test('any sequence of writes leaves what dealing by hand leaves', async () => {
      const step = fc.oneof(
        fc.record({ act: fc.constant('create' as const), want: fc.nat(5) }),
        fc.record({ act: fc.constant('replace' as const), at: fc.nat(3), want: fc.nat(5) }),
        fc.record({ act: fc.constant('remove' as const), at: fc.nat(3) }),
        fc.record({ act: fc.constant('build' as const), at: fc.nat(3) }),
        fc.record({ act: fc.constant('restock' as const), count: fc.nat(9) }),
      )
      await fc.assert(
        fc.asyncProperty(fc.array(step, { maxLength: 10 }), async (steps) => {
          await store.restock(NOTHING, 'any')
          const made: { id: string; want: number; here: boolean; built: number | null }[] = []
          let inShed = 0
          const dealt = () => {
            let left = inShed
            return made.map(({ want, here, built }) => {
              if (!here) return 0
              if (built !== null) return built
              const own = Math.min(want, left)
              left -= own
              return own
            })
          }
          for (const each of steps) {
            if (each.act === 'create') {
              made.push({ id: await create(each.want), want: each.want, here: true, built: null })
            } else if (each.act === 'restock') {
              inShed = each.count
              await store.restock(sticks(inShed), 'any')
            } else {
              const project = made[each.at]
              if (!project?.here) continue
              if (each.act === 'replace') {
                await store.replace(project.id, { name: 'x', notes: '', plan: wanting(each.want) }, 'any')
                Object.assign(project, { want: each.want, built: null })
              } else if (each.act === 'remove') {
                await store.remove(project.id, 'any')
                project.here = false
              } else if (project.built === null) {
                project.built = dealt()[each.at]!
                inShed -= project.built
                await store.build(project.id, 'any', work)
              }
            }
          }
          expect(await counts(...made.map(({ id }) => id))).toEqual(dealt())
          for (const { id, here } of made) if (here) await store.remove(id, 'any')
        }),
        { numRuns: 15 },
      )
    })
  })
}
