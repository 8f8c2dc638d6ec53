import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openStore } from '../../src/projects/open-store.ts'
import type { Expected, Project, ProjectContent, ProjectStore } from '../../src/projects/store.ts'
import type { DatabaseKind, TestDatabase } from '../servers/databases.ts'

const NOBODY = '01890a5d-ac96-774b-bcce-b302099a8057'
const NOT_IDS = [
  '',
  '1',
  'x',
  "' or 1=1 --",
  `{${NOBODY}}`,
  NOBODY.replaceAll('-', ''),
  `${NOBODY} `,
  '\0',
  '١'.repeat(36),
]
const PLAN = { rail: { section: '250', material: 'brass' }, tracks: [] }

const quiet = { onProgress: () => {} }

function content(name: string, more: Partial<ProjectContent> = {}): ProjectContent {
  return { name, notes: '', plan: PLAN, ...more }
}

/** What every store keeps to, whatever database is behind it. */
export function storeContract(kind: DatabaseKind): void {
  describe(kind.name, () => {
    let database: TestDatabase
    let store: ProjectStore

    beforeAll(async () => {
      database = await kind.make()
      store = await openStore(database.place, quiet)
    })
    afterAll(async () => {
      await store.close()
      await database.dispose()
    })

    async function allOf(limit: number): Promise<string[]> {
      const ids: string[] = []
      let after: string | null = null
      do {
        const page: Awaited<ReturnType<ProjectStore['list']>> = await store.list({ limit, after })
        expect(page.items.length).toBeLessThanOrEqual(limit)
        ids.push(...page.items.map((item) => item.id))
        after = page.next
      } while (after !== null)
      return ids
    }

    async function empty(): Promise<void> {
      for (const id of await allOf(100)) await store.remove(id, 'any')
    }

    /** Replaces and hands over the new project; anything but success fails the test. */
    async function replaced(id: string, next: ProjectContent, expected: Expected): Promise<Project> {
      const written = await store.replace(id, next, expected)
      if (written.outcome !== 'done') throw new Error(`not replaced: ${written.outcome}`)
      return written.value
    }

    describe('one project', () => {
      test('is answered as it was written, with id, revision and times', async () => {
        const before = Date.now()
        const project = await store.create(content('Quarry loop', { notes: 'two\nlines' }))
        expect(project).toMatchObject({ name: 'Quarry loop', notes: 'two\nlines', plan: PLAN, revision: 1 })
        expect(project.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
        expect(project.createdAt).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/)
        expect(Math.abs(Date.parse(project.createdAt) - before)).toBeLessThan(60_000)
        expect(project.updatedAt).toBe(project.createdAt)
        expect(await store.get(project.id)).toEqual(project)
        expect(await store.get(project.id.toUpperCase())).toEqual(project)
      })

      test('that does not exist is null or missing, also when its id is no UUID', async () => {
        for (const id of [NOBODY, ...NOT_IDS]) {
          expect(await store.get(id)).toBeNull()
          expect(await store.revisions(id)).toBeNull()
          expect(await store.revision(id, 1)).toBeNull()
          expect(await store.replace(id, content('x'), 'any')).toEqual({ outcome: 'missing' })
          expect(await store.replace(id, content('x'), [1])).toEqual({ outcome: 'missing' })
          expect(await store.remove(id, 'any')).toEqual({ outcome: 'missing' })
          expect(await store.remove(id, [1])).toEqual({ outcome: 'missing' })
        }
      })

      test.each([
        ['astral and combining characters', '𝟜𝟝 mm · e\u0301 · 👩🏽‍🔧'],
        ['a composed and a decomposed letter, kept apart', '\u00e9 e\u0301'],
        ['right to left, with a mark', 'מסילה \u200fשלום 45'],
        ['quotes, backslashes and a statement', `'; drop table projects; -- " \\ \\' \\u0041 $1 %s \${x}`],
        ['control characters other than NUL', '\u0001\t\r\n\u001f\u007f\u0085\ufeff\ufffe'],
        ['blanks alone', '   '],
        ['100 kB', 'ä€'.repeat(20_000)],
      ])('keeps %s in name, notes and plan', async (_, text) => {
        const project = await store.create({ name: text, notes: text, plan: { [text]: text } })
        const kept = await store.get(project.id)
        expect(kept).toEqual({ ...project, name: text, notes: text, plan: { [text]: text } })
        expect((await store.list({ limit: 1, after: null })).items[0]).toMatchObject({ name: text, notes: text })
        expect(await store.revision(project.id, 1)).toEqual(kept)
      })

      test.each([
        ['NUL', 'a\0b'],
        ['half of a surrogate pair', 'a\ud800b'],
        ['the other half', '\udc00'],
      ])('is refused with %s in its name or notes, and nothing is written', async (_, text) => {
        const project = await store.create(content('as it was'))
        for (const bad of [content(text), content('x', { notes: text })]) {
          await expect(store.create(bad)).rejects.toMatchObject({ name: 'StoreError', kind: 'refused' })
          await expect(store.replace(project.id, bad, 'any')).rejects.toMatchObject({ kind: 'refused' })
        }
        expect(await store.get(project.id)).toEqual(project)
        expect(await store.list({ limit: 1, after: null })).toMatchObject({ items: [{ id: project.id }] })
      })

      test('is refused without a name, in words that repeat neither the content nor a statement', async () => {
        const project = await store.create(content('as it was'))
        const secret = 'what nobody else should read'
        for (const attempt of [
          store.create(content('', { notes: secret })),
          store.replace(project.id, content('', { notes: secret }), 'any'),
        ]) {
          const error = await attempt.then(
            () => null,
            (reason: Error) => reason,
          )
          expect(error).toMatchObject({ name: 'StoreError', kind: 'refused', code: '23514' })
          expect(error!.message).toContain('projects_name_not_empty')
          expect(`${error!.message} ${error!.stack} ${JSON.stringify(error)}`).not.toMatch(/what nobody|insert|update/i)
          expect(error!.cause).toBeUndefined()
        }
        expect(await store.get(project.id)).toEqual(project)
        expect(await store.revisions(project.id)).toHaveLength(1)
      })
    })

    describe('a plan', () => {
      test.each([
        ['its own order of keys', '{"z":1,"a":{"y":[],"b":{}},"length":"7 ft 6 in","10":0,"é":null,"":true}'],
        ['a key that objects have by themselves', '{"constructor":{"__proto__":1},"__proto__":{"x":2}}'],
        [
          'every digit of its numbers',
          '[0.1,0.30000000000000004,5e-324,1.7976931348623157e+308,9007199254740993,-1e-7]',
        ],
        ['escapes', String.raw`{"text":"\u0000 \ud800 \" \\ \/ \u2028"}`],
        [
          '2,000 elements',
          JSON.stringify(Array.from({ length: 2000 }, (_, n) => ({ kind: 'tangent', length: n + 0.5 }))),
        ],
      ])('keeps %s', async (_, json) => {
        const plan = { kept: JSON.parse(json) as unknown }
        const project = await store.create(content('x', { plan }))
        const kept = [(await store.get(project.id))!, (await store.revision(project.id, 1))!]
        for (const { plan: found } of [project, ...kept]) expect(JSON.stringify(found)).toBe(JSON.stringify(plan))
      })
    })

    describe('replacing', () => {
      test('counts revisions and leaves the old ones readable', async () => {
        const first = await store.create(content('one', { notes: 'a', plan: { n: 1 } }))
        const second = await replaced(first.id, content('two', { notes: 'b', plan: { n: 2 } }), [1])
        const third = await replaced(first.id, content('three', { notes: 'c', plan: { n: 3 } }), 'any')
        expect(second).toMatchObject({ id: first.id, name: 'two', notes: 'b', plan: { n: 2 }, revision: 2 })
        expect(third).toMatchObject({ id: first.id, name: 'three', notes: 'c', plan: { n: 3 }, revision: 3 })
        expect([second.createdAt, third.createdAt]).toEqual([first.createdAt, first.createdAt])
        expect([first.updatedAt, second.updatedAt, third.updatedAt].toSorted()).toEqual([
          first.updatedAt,
          second.updatedAt,
          third.updatedAt,
        ])
        expect(await store.get(first.id)).toEqual(third)
        expect(await store.revision(first.id, 1)).toEqual(first)
        expect(await store.revision(first.id, 2)).toEqual(second)
        expect(await store.revision(first.id, 3)).toEqual(third)
        expect(await store.revisions(first.id)).toEqual([
          { revision: 1, createdAt: first.createdAt, name: 'one' },
          { revision: 2, createdAt: second.updatedAt, name: 'two' },
          { revision: 3, createdAt: third.updatedAt, name: 'three' },
        ])
      })

      test.each([0, 2, -1, 1.5, Number.NaN, 2 ** 31, 2 ** 53])('answers null for revision %d of one', async (n) => {
        const project = await store.create(content('x'))
        expect(await store.revision(project.id, n)).toBeNull()
      })

      test('needs the present revision among those expected', async () => {
        const project = await store.create(content('one'))
        await replaced(project.id, content('two'), [1])
        for (const expected of [[1], [3], [], [0, -1, 1.5, Number.NaN, 2 ** 31, 2 ** 53]]) {
          const stale = { outcome: 'stale', revision: 2 }
          expect(await store.replace(project.id, content('never'), expected)).toEqual(stale)
          expect(await store.remove(project.id, expected)).toEqual(stale)
        }
        expect(await replaced(project.id, content('three'), [1, 7, 2])).toMatchObject({ name: 'three', revision: 3 })
      })

      test('with one expected revision, 20 at a time: exactly one wins', async () => {
        const project = await store.create(content('start'))
        const names = Array.from({ length: 20 }, (_, n) => `writer ${n}`)
        const outcomes = await Promise.all(names.map((name) => store.replace(project.id, content(name), [1])))
        const winners = outcomes.filter((written) => written.outcome === 'done')
        expect(winners).toHaveLength(1)
        expect(outcomes.filter((written) => written.outcome === 'stale' && written.revision === 2)).toHaveLength(19)
        expect(await store.get(project.id)).toEqual(winners[0]!.value)
        expect(await store.revisions(project.id)).toHaveLength(2)
      })

      test('whatever the revision, 20 at a time: all win, one after another', async () => {
        const project = await store.create(content('start'))
        const names = Array.from({ length: 20 }, (_, n) => `writer ${n}`)
        const written = await Promise.all(names.map((name) => replaced(project.id, content(name), 'any')))
        const numbers = written.map(({ revision }) => revision).toSorted((a, b) => a - b)
        expect(numbers).toEqual(Array.from({ length: 20 }, (_, n) => n + 2))
        for (const each of written) expect(await store.revision(project.id, each.revision)).toEqual(each)
      })
    })

    describe('removing', () => {
      test('takes the revisions along and nothing else', async () => {
        const neighbour = await store.create(content('neighbour'))
        const project = await store.create(content('one'))
        await replaced(project.id, content('two'), [1])
        expect(await store.remove(project.id, [2])).toEqual({ outcome: 'done', value: null })
        expect(await store.get(project.id)).toBeNull()
        expect(await store.revisions(project.id)).toBeNull()
        expect(await store.revision(project.id, 1)).toBeNull()
        expect(await store.revision(project.id, 2)).toBeNull()
        expect(await store.remove(project.id, 'any')).toEqual({ outcome: 'missing' })
        expect(await store.replace(project.id, content('three'), 'any')).toEqual({ outcome: 'missing' })
        expect(await store.get(neighbour.id)).toEqual(neighbour)
        expect(await store.revisions(neighbour.id)).toHaveLength(1)
      })

      test('ten at a time: one removes, the others find nothing', async () => {
        const project = await store.create(content('one'))
        const outcomes = await Promise.all(Array.from({ length: 10 }, () => store.remove(project.id, [1])))
        expect(outcomes.map(({ outcome }) => outcome).toSorted()).toEqual(['done', ...Array(9).fill('missing')])
      })

      test('and replacing at the same time leave either a whole project or none', async () => {
        for (let round = 0; round < 5; round += 1) {
          const project = await store.create(content('one'))
          const [removal, replacement] = await Promise.all([
            store.remove(project.id, [1]),
            store.replace(project.id, content('two'), [1]),
          ])
          const survived = removal.outcome !== 'done'
          expect(replacement.outcome).toBe(survived ? 'done' : 'missing')
          expect((await store.revisions(project.id))?.length ?? 0).toBe(survived ? 2 : 0)
        }
      })
    })

    describe('the list', () => {
      test('is one empty page without projects', async () => {
        await empty()
        expect(await store.list({ limit: 3, after: null })).toEqual({ items: [], next: null })
        expect(await store.list({ limit: 3, after: NOBODY })).toEqual({ items: [], next: null })
      })

      test('shows the newest first, each once, in pages of any size', async () => {
        await empty()
        const made: string[] = []
        for (let n = 0; n < 7; n += 1) made.push((await store.create(content(`project ${n}`))).id)
        for (const limit of [1, 2, 3, 6, 7, 8, 100]) expect(await allOf(limit)).toEqual(made.toReversed())
        expect((await store.list({ limit: 7, after: null })).next).toBeNull()
        expect((await store.list({ limit: 6, after: null })).next).toBe(made[1])
      })

      test('shows each once when many were made in the same millisecond', async () => {
        await empty()
        const made = await Promise.all(Array.from({ length: 25 }, (_, n) => store.create(content(`project ${n}`))))
        const listed = await allOf(4)
        expect(listed).toHaveLength(25)
        expect(new Set(listed)).toEqual(new Set(made.map(({ id }) => id)))
        expect(listed).toEqual(listed.toSorted().toReversed())
      })

      test('goes on where it was when projects come and go between two pages', async () => {
        await empty()
        const made: string[] = []
        for (let n = 0; n < 6; n += 1) made.push((await store.create(content(`project ${n}`))).id)
        const first = await store.list({ limit: 2, after: null })
        expect(first.items.map(({ id }) => id)).toEqual([made[5], made[4]])
        await store.create(content('newer'))
        await store.remove(made[4]!, 'any')
        await store.remove(made[3]!, 'any')
        await store.replace(made[1]!, content('renamed'), 'any')
        const second = await store.list({ limit: 2, after: first.next })
        expect(second.items.map(({ id, name }) => [id, name])).toEqual([
          [made[2], 'project 2'],
          [made[1], 'renamed'],
        ])
        expect((await store.list({ limit: 2, after: second.next })).items.map(({ id }) => id)).toEqual([made[0]])
      })

      test('has everything of a project but its plan', async () => {
        const { plan: _, ...summary } = await store.create(content('x', { notes: 'y' }))
        expect((await store.list({ limit: 1, after: null })).items).toEqual([
          { ...summary, builtRevision: null, deletedAt: null },
        ])
      })

      test('refuses a page without projects and a cursor that is no id', async () => {
        for (const limit of [0, -1, 1.5, Number.NaN])
          await expect(store.list({ limit, after: null })).rejects.toThrow(RangeError)
        for (const after of NOT_IDS) await expect(store.list({ limit: 1, after })).rejects.toThrow(RangeError)
      })
    })

    test('any sequence of writes leaves what the same sequence leaves in memory', async () => {
      await empty()
      const step = fc.oneof(
        fc.record({ act: fc.constant('create' as const), name: fc.string({ unit: 'grapheme', minLength: 1 }) }),
        fc.record({
          act: fc.constant('replace' as const),
          at: fc.nat(4),
          name: fc.string({ minLength: 1 }),
          known: fc.nat(3),
        }),
        fc.record({ act: fc.constant('remove' as const), at: fc.nat(4), known: fc.nat(3) }),
      )
      const storable = (name: string) => !/[\0\p{Surrogate}]/u.test(name)
      await fc.assert(
        fc.asyncProperty(fc.array(step, { maxLength: 12 }), async (steps) => {
          const ids: string[] = []
          /** Names by revision of each project, the last being the present one; a removed project has none. */
          const memory: string[][] = []
          for (const each of steps) {
            if (each.act === 'create') {
              if (!storable(each.name)) continue
              ids.push((await store.create(content(each.name))).id)
              memory.push([each.name])
              continue
            }
            const names = memory[each.at]
            const known = each.known === 0 ? ('any' as const) : [each.known]
            const expected =
              names === undefined || names.length === 0
                ? 'missing'
                : known === 'any' || names.length === each.known
                  ? 'done'
                  : 'stale'
            if (each.act === 'replace') {
              if (!storable(each.name)) continue
              const written = await store.replace(ids[each.at] ?? NOBODY, content(each.name), known)
              expect(written.outcome).toBe(expected)
              if (expected === 'done') names!.push(each.name)
            } else {
              expect((await store.remove(ids[each.at] ?? NOBODY, known)).outcome).toBe(expected)
              if (expected === 'done') names!.length = 0
            }
          }
          for (const [index, id] of ids.entries()) {
            const names = memory[index]!
            expect((await store.revisions(id))?.map(({ name }) => name) ?? []).toEqual(names)
            expect((await store.get(id))?.name).toBe(names.at(-1))
          }
          expect(await allOf(3)).toEqual(ids.filter((_, index) => memory[index]!.length > 0).toReversed())
          await empty()
        }),
        { numRuns: 25 },
      )
    })
  })

  describe(`${kind.name}, opened and closed`, () => {
    let database: TestDatabase

    beforeAll(async () => {
      database = await kind.make()
      await (await openStore(database.place, quiet)).close()
    })
    afterAll(() => database.dispose())

    test('keeps its projects, and refuses every call once it is closed', async () => {
      const store = await openStore(database.place, quiet)
      await store.ping()
      const project = await store.create(content('one'))
      await Promise.all([store.close(), store.close()])
      const { id } = project
      for (const call of [
        () => store.ping(),
        () => store.create(content('x')),
        () => store.list({ limit: 1, after: null }),
        () => store.get(id),
        () => store.replace(id, content('x'), 'any'),
        () => store.remove(id, 'any'),
        () => store.revisions(id),
        () => store.revision(id, 1),
      ])
        await expect(call()).rejects.toMatchObject({ name: 'StoreError', kind: 'unavailable' })

      const again = await openStore(database.place, quiet)
      try {
        expect(await again.get(id)).toEqual(project)
      } finally {
        await again.close()
      }
    })

    test('guards its tables itself', async () => {
      const id = NOBODY
      const project = (change: Record<string, string>) => {
        const row = {
          id: `'${id}'`,
          name: "'x'",
          notes: "''",
          plan: "'{}'",
          revision: '1',
          created_at: 'now()',
          updated_at: 'now()',
        }
        const entries = Object.entries({ ...row, ...change })
        return `insert into projects (${entries.map(([key]) => key)}) values (${entries.map(([, value]) => value)})`
      }
      const kept = (change: Record<string, string>) => {
        const row = {
          project_id: `'${id}'`,
          revision: '1',
          name: "'x'",
          notes: "''",
          plan: "'{}'",
          created_at: 'now()',
        }
        const entries = Object.entries({ ...row, ...change })
        return `insert into project_revisions (${entries.map(([key]) => key)}) values (${entries.map(([, value]) => value)})`
      }
      await database.sql(async (query) => {
        const refused = async (statement: string, code: string) => {
          await expect(query(statement), statement).rejects.toMatchObject({ code })
        }
        await refused(kept({}), '23503')
        await query(project({}))
        await query(kept({}))
        await refused(project({}), '23505')
        await refused(kept({}), '23505')
        const other = { id: "'01890a5d-ac96-774b-bcce-b302099a8058'" }
        const second = { revision: '2' }
        for (const make of [
          (change: Record<string, string>) => project({ ...other, ...change }),
          (change: Record<string, string>) => kept({ ...second, ...change }),
        ]) {
          await refused(make({ name: "''" }), '23514')
          for (const plan of ["'[]'", "'1'", "'null'", '\'"text"\'']) await refused(make({ plan }), '23514')
          await refused(make({ plan: "'{'" }), '22P02')
          await refused(make({ revision: '0' }), '23514')
          for (const column of ['name', 'notes', 'plan', 'revision', 'created_at'])
            await refused(make({ [column]: 'null' }), '23502')
        }
        await refused(project({ ...other, updated_at: "now() - interval '1 second'" }), '23514')
        const build = (change: Record<string, string>) => {
          const row = { project_id: `'${id}'`, revision: '1', built_at: 'now()', taken: "'{}'", returned: "'{}'" }
          const entries = Object.entries({ ...row, ...change })
          return `insert into project_builds (${entries.map(([key]) => key)}) values (${entries.map(([, value]) => value)})`
        }
        await refused(build({ revision: '2' }), '23503')
        for (const column of ['taken', 'returned']) await refused(build({ [column]: "'[]'" }), '23514')
        await query(build({}))
        await refused(build({}), '23505')
        const reserve = (project: string, stock: string) =>
          `insert into shed_reservations values (${project}, 1, ${stock})`
        await refused(reserve(other.id, "'{}'"), '23503')
        await refused(reserve(`'${id}'`, "'1'"), '23514')
        await query(reserve(`'${id}'`, "'{}'"))
        await refused(reserve(`'${id}'`, "'{}'"), '23505')
        await refused(`insert into shed values (2, 1, '{}', now())`, '23514')
        await refused(`insert into shed values (1, 1, '{}', now())`, '23505')
        for (const bad of ['revision = 0', "stock = '[]'"]) await refused(`update shed set ${bad}`, '23514')
        await query(`delete from projects where id = '${id}'`)
        for (const table of ['project_revisions', 'project_builds', 'shed_reservations'])
          expect(await query(`select * from ${table} where project_id = '${id}'`)).toEqual([])
      })
    })

    test('has an index for each query', async () => {
      await database.sql(async (query) => {
        await query('set enable_seqscan = off')
        await query('set enable_sort = off')
        for (const statement of [
          `select name from projects order by id desc limit 3`,
          `select name from projects where id < '${NOBODY}' order by id desc limit 3`,
          `select name from projects where id = '${NOBODY}'`,
          `update projects set revision = revision + 1 where id = '${NOBODY}' and revision in (1, 2)`,
          `delete from projects where id = '${NOBODY}'`,
          `select name from project_revisions where project_id = '${NOBODY}' order by revision`,
          `select name from project_revisions where project_id = '${NOBODY}' and revision = 1`,
          `delete from project_revisions where project_id = '${NOBODY}'`,
          `delete from shed_reservations where project_id >= '${NOBODY}'`,
          `select label from project_links where project_id = '${NOBODY}' order by id`,
          `select project_id from project_links where token_hash = 'x'`,
          `select item from project_purchases where project_id = '${NOBODY}' order by item`,
          `select card from project_finished_cards where project_id = '${NOBODY}' and revision = 1 order by card`,
          `select project_id from creation_keys where key = 'x'`,
          `select taken from project_builds where project_id = '${NOBODY}' order by revision`,
          `select plan from projects p left join project_builds b on b.project_id = p.id and b.revision = p.revision where p.id > '${NOBODY}' and b.project_id is null order by p.id limit 50`,
        ]) {
          const steps = (await query(`explain ${statement}`)).map((row) => String(row['QUERY PLAN'])).join('\n')
          expect(steps).toMatch(/Index (Only )?(Scan|Cond)/)
          expect(steps).not.toMatch(/Seq Scan|Sort/)
        }
      })
    })
  })
}
