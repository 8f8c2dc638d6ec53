import { expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { ARC, appWithoutStore, asking, placesIn, planWith, problemIn, TANGENT, trackOf } from './asking.ts'

const { ask } = asking(appWithoutStore())
const estimate = (json: unknown) => ask('/v1/estimates', { method: 'POST', json })
const track = (change: object) => planWith({ tracks: [{ ...trackOf(TANGENT, ARC), ...change }] })

test('a plan tells new, existing and lifted track apart, and what its ends join', async () => {
  const plan = planWith({
    tracks: [
      {
        ...trackOf(ARC),
        joinsExisting: { start: { section: '332', material: 'aluminum', radius: '9 ft', turn: 'right' } },
      },
      { ...trackOf(TANGENT), name: 'loop', state: 'existing', start: { y: 9000 } },
      { ...trackOf(TANGENT), name: 'spur', state: 'lifted', start: { y: 18_000 } },
    ],
    supplies: { transitionJoiners: { packSize: 2, pricePerPack: '7.00' } },
  })
  const answer = await estimate(plan)
  expect(answer.status).toBe(200)
  const { tracks, bill, findings } = JSON.parse(answer.text) as Estimate
  expect(tracks.map(({ name, state }) => [name, state])).toEqual([
    ['main', 'new'],
    ['loop', 'existing'],
    ['spur', 'lifted'],
  ])
  expect(bill.lines.find(({ item }) => item === 'transition-joiner')).toMatchObject({ required: 2, amount: '7.00' })
  expect(findings.map(({ rule }) => rule).toSorted()).toEqual(['mixed-metals', 'not-checked', 'reverse-curve'])
})

test.each<[string, object, string[]]>([
  ['a state that is none', { state: 'gone' }, ['/tracks/0/state']],
  ['an end that is a number', { joinsExisting: { start: 1 } }, ['/tracks/0/joinsExisting/start']],
  [
    'an end without its rail',
    { joinsExisting: { end: {} } },
    ['/tracks/0/joinsExisting/end/section', '/tracks/0/joinsExisting/end/material'],
  ],
  [
    'a radius without a turn, and a metal nobody knows',
    { joinsExisting: { start: { section: '250', material: 'tin', radius: '9 ft' } } },
    ['/tracks/0/joinsExisting/start/material', '/tracks/0/joinsExisting/start/turn'],
  ],
  [
    'a turn without a radius, and a misspelt field',
    { joinsExisting: { start: { section: '250', material: 'brass', turn: 'left', raduis: 1 } } },
    ['/tracks/0/joinsExisting/start/raduis'],
  ],
  [
    'a closed track that joins something',
    { closed: true, joinsExisting: { start: { section: '250', material: 'brass' } } },
    ['/tracks/0/joinsExisting'],
  ],
])('%s is refused at its place', async (_, change, places) => {
  const answer = await estimate(track(change))
  expect(answer.status).toBe(422)
  expect(placesIn(answer)).toEqual(places)
  for (const { detail } of problemIn(answer).errors) expect(detail.length).toBeGreaterThan(10)
})
