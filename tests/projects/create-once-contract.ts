import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openStore } from '../../src/projects/open-store.ts'
import type { CreatedOnce, Project, ProjectContent, ProjectStore } from '../../src/projects/store.ts'
import type { DatabaseKind, TestDatabase } from '../servers/databases.ts'

const CONTENT: ProjectContent = { name: 'Pond line', notes: 'first', plan: { rail: {}, tracks: [] } }

/** What every store keeps to about creating a project once for a key. */
export function createOnceContract(kind: DatabaseKind): void {
  describe(`keys on ${kind.name}`, () => {
    let database: TestDatabase
    let store: ProjectStore

    beforeAll(async () => {
      database = await kind.make()
      store = await openStore(database.place, { onProgress: () => {} })
    })
    afterAll(async () => {
      await store.close()
      await database.dispose()
    })

    const create = (key: string, body = 'body', content = CONTENT) => store.createOnce(key, body, content)
    const created = (outcome: CreatedOnce): Project => {
      if (outcome.outcome !== 'done') throw new Error(`not created: ${outcome.outcome}`)
      return outcome.value
    }
    const count = async () => (await store.list({ limit: 200, after: null })).items.length
    async function reopened(between: (query: (statement: string) => Promise<unknown>) => Promise<unknown>) {
      await store.close()
      await database.sql(between)
      store = await openStore(database.place, { onProgress: () => {} })
    }

    test('the same key and body give the project as it was created, and no other', async () => {
      const before = await count()
      const first = created(await create('same'))
      expect(first).toMatchObject({ ...CONTENT, revision: 1 })
      await store.replace(first.id, { ...CONTENT, name: 'renamed' }, 'any')
      expect(created(await create('same'))).toEqual(first)
      expect(await count()).toBe(before + 1)
      expect(created(await create('another')).id).not.toBe(first.id)
    })

    test('the same key with another body creates nothing', async () => {
      await create('two bodies')
      const before = await count()
      expect(await create('two bodies', 'other')).toEqual({ outcome: 'other-body' })
      expect(await count()).toBe(before)
    })

    test('a project that was deleted since is not created again', async () => {
      const { id } = created(await create('deleted'))
      await store.remove(id, 'any')
      expect(await create('deleted')).toEqual({ outcome: 'missing' })
    })

    test('of many requests at once one creates, and the others are refused or given the same', async () => {
      const before = await count()
      const outcomes = await Promise.all(Array.from({ length: 12 }, () => create('at once')))
      const ids = new Set(outcomes.flatMap((each) => (each.outcome === 'done' ? [each.value.id] : [])))
      expect(ids.size).toBe(1)
      const others = outcomes.filter(({ outcome }) => outcome !== 'done')
      expect(others.length).toBeGreaterThan(0)
      expect(new Set(others.map(({ outcome }) => outcome))).toEqual(new Set(['in-progress']))
      expect(await count()).toBe(before + 1)
      expect([...ids]).toEqual([created(await create('at once')).id])
    })

    test('a creation that fails leaves its key free', async () => {
      await expect(create('fails', 'bad', { ...CONTENT, name: '' })).rejects.toMatchObject({ kind: 'refused' })
      await expect(create('fails', 'bad', { ...CONTENT, name: 'nul\0' })).rejects.toMatchObject({ kind: 'refused' })
      expect(created(await create('fails')).name).toBe('Pond line')
    })

    test.each(["' or 1=1 --", 'x'.repeat(255), '8e03978e-40d5-43dd-bc93-6894a57f9324'])(
      'any text is a key: %s',
      async (key) => {
        expect(created(await create(key))).toEqual(created(await create(key)))
      },
    )

    test('a key is known after a restart, and forgotten after a day', async () => {
      const first = created(await create('kept'))
      await reopened((query) =>
        query("update creation_keys set claimed_at = now() - interval '23 hours' where key = 'kept'"),
      )
      expect(created(await create('kept'))).toEqual(first)
      await reopened((query) =>
        query("update creation_keys set claimed_at = now() - interval '25 hours' where key = 'kept'"),
      )
      expect(created(await create('kept', 'other')).id).not.toBe(first.id)
    })

    test('what an ended process left unfinished is taken up after a minute', async () => {
      const claimed = (key: string, ago: string) =>
        `insert into creation_keys (key, body_hash, claim, claimed_at) values ('${key}', 'body', '01890a5d-ac96-774b-bcce-b302099a8057', now() - interval '${ago}')`
      await reopened(async (query) => {
        await query(claimed('young', '50 seconds'))
        await query(claimed('old', '70 seconds'))
      })
      expect(await create('young')).toEqual({ outcome: 'in-progress' })
      expect(created(await create('old')).name).toBe('Pond line')
    })
  })
}
