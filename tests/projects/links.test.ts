import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openStore } from '../../src/projects/open-store.ts'
import { MOST_LINKS, type ProjectStore } from '../../src/projects/store.ts'
import { databaseKinds, type TestDatabase } from '../servers/databases.ts'

const NOBODY = '01890a5d-ac96-774b-bcce-b302099a8057'

/* What every store keeps to, whatever database is behind it. */
for (const kind of databaseKinds())
  describe(`links of projects, ${kind.name}`, () => {
    let database: TestDatabase
    let store: ProjectStore
    let hashes = 0
    const newHash = () => `hash ${++hashes}`
    const newProject = async () => (await store.create({ name: 'Spur', notes: '', plan: {} })).id

    beforeAll(async () => {
      database = await kind.make()
      store = await openStore(database.place, { onProgress: () => {} })
    })
    afterAll(async () => {
      await store.close()
      await database.dispose()
    })

    async function added(project: string, label: string, hash = newHash()) {
      const result = await store.addLink(project, label, hash)
      if (result.outcome !== 'done') throw new Error(result.outcome)
      return { ...result.value, hash }
    }

    test('are listed oldest first, and give their own project', async () => {
      const [one, other] = [await newProject(), await newProject()]
      expect(await store.links(one)).toEqual([])
      const first = await added(one, 'stock list')
      const second = await added(one, 'the cut list in the workshop')
      const third = await added(other, 'stock list')
      expect(first.createdAt).toMatch(/^\d{4}-\d\d-\d\dT.*Z$/)
      const { hash: _, ...shown } = first
      expect((await store.links(one))?.map(({ label }) => label)).toEqual([
        'stock list',
        'the cut list in the workshop',
      ])
      expect((await store.links(one))?.[0]).toEqual(shown)
      expect((await store.linked(first.hash))?.id).toBe(one)
      expect((await store.linked(second.hash))?.id).toBe(one)
      expect((await store.linked(third.hash))?.id).toBe(other)
      expect(await store.linked('no such hash')).toBeNull()
    })

    test('the present revision is given, and the first use noted; a second one within the minute is not written', async () => {
      const project = await newProject()
      const { hash } = await added(project, 'x')
      await store.replace(project, { name: 'Longer spur', notes: '', plan: {} }, 'any')
      expect(await store.linked(hash)).toMatchObject({ name: 'Longer spur', revision: 2 })
      const used = (await store.links(project))![0]!.lastUsedAt
      expect(Math.abs(Date.parse(used!) - Date.now())).toBeLessThan(60_000)
      await store.linked(hash)
      expect((await store.links(project))![0]!.lastUsedAt).toBe(used)
      await database.sql((query) =>
        query(`update project_links set last_used_at = now() - interval '2 minutes' where project_id = '${project}'`),
      )
      await store.linked(hash)
      expect(Date.parse((await store.links(project))![0]!.lastUsedAt!)).toBeGreaterThanOrEqual(Date.parse(used!))
    })

    test('end when they are revoked, by their own project alone, and with the project', async () => {
      const [one, other] = [await newProject(), await newProject()]
      const link = await added(one, 'x')
      expect(await store.removeLink(other, link.id)).toBe(false)
      for (const none of [NOBODY, 'x', '']) {
        expect(await store.removeLink(one, none)).toBe(false)
        expect(await store.removeLink(none, link.id)).toBe(false)
      }
      expect(await store.removeLink(one, link.id)).toBe(true)
      expect(await store.removeLink(one, link.id)).toBe(false)
      expect(await store.linked(link.hash)).toBeNull()
      const more = await added(one, 'y')
      await store.remove(one, 'any')
      expect(await store.linked(more.hash)).toBeNull()
      expect(await store.links(one)).toBeNull()
    })

    test('of no project are none; one project has so many and no more, also when asked for at once', async () => {
      for (const none of [NOBODY, 'x', '']) {
        expect(await store.links(none)).toBeNull()
        expect(await store.addLink(none, 'x', newHash())).toEqual({ outcome: 'missing' })
      }
      const project = await newProject()
      const tried = await Promise.all(
        Array.from({ length: MOST_LINKS + 5 }, (_, n) => store.addLink(project, `link ${n}`, newHash())),
      )
      expect(tried.filter(({ outcome }) => outcome === 'done')).toHaveLength(MOST_LINKS)
      expect(tried.filter(({ outcome }) => outcome === 'too-many')).toHaveLength(5)
    })

    test('a hash is nobody else’s', async () => {
      const { hash } = await added(await newProject(), 'x')
      await expect(store.addLink(await newProject(), 'y', hash)).rejects.toMatchObject({ kind: 'refused' })
    })
  })
