import { describe, expect, test } from 'vitest'
import { moneyMore } from '../../src/measure/money.ts'
import { planWith } from '../api/asking.ts'
import { visiting } from './visiting.ts'

const { store, get } = visiting()

const tangent = (length: number | string) => ({ kind: 'tangent', length })
const arc = (radius: number) => ({ kind: 'arc', radius, angle: 30, turn: 'left' })
const planOf = (elements: readonly object[], more: object = {}) =>
  planWith({
    tracks: [{ name: 'main', elements }],
    supplies: { sticks: [{ length: 1500, price: '10.00' }], ties: { spacing: 50 } },
    ...more,
  })
const content = (elements: readonly object[], more: object = {}) => ({
  name: 'Pond <loop>',
  notes: '',
  plan: planOf(elements, more),
})

async function twoRevisions(before: readonly object[], after: readonly object[], more: object = {}) {
  const { id } = await store().create(content(before))
  await store().replace(id, content(after, more), 'any')
  return `/plans/${id}`
}

describe('two revisions of a plan', () => {
  test('are one drawing, with what is changed marked, and lists of what is different', async () => {
    const base = await twoRevisions(
      [tangent(3000), arc(2000), tangent(1500)],
      [tangent(4500), arc(2000), tangent(1500)],
    )
    const { status, text, markup } = await get(`${base}/compare?from=1&to=2`)
    expect(status).toBe(200)
    expect(text).toContain('Pond <loop>: revision 1 and revision 2')
    // by hand: 1500 mm more on each rail are a stick each
    expect(text).toContain(
      'Buy 2 more sticks, 20.00 USD more in all. 1 straight changed, 1 curve moved and 1 straight moved.',
    )
    expect(text).toMatch(/Straight 1 of main changed: straight, 3\.000 m 9 ft 10-1\/8 in long → straight, 4\.500 m/)
    expect(text).toContain('2 elements only moved: as long and as curved as before.')
    expect(text).toContain('track 1, element 1, length: “3000” in revision 1, in revision 2 “4500”')
    expect(text).toMatch(/Total .*\d+\.00 USD \d+\.00 USD \+20\.00 USD/)
    // The band lies on the straight that is longer alone; dashes where the three elements lay before.
    expect(markup.match(/<path class="changed" d="M[^"M]+"/g)).toHaveLength(1)
    expect(markup.match(/<path class="was" d="M[^"M]+M[^"M]+M[^"M]+"/g)).toHaveLength(1)
  })

  test('are compared in the order that is asked for, in one unit or both', async () => {
    const base = await twoRevisions([tangent(3000)], [tangent(3000), arc(1500)])
    const there = await get(`${base}/compare?from=1&to=2&show=feet`)
    expect(there.text).toContain('Curve 2 of main added: radius 4 ft 11-1/16 in, 30° to the left, 2 ft 6-15/16 in long')
    expect(there.text).not.toMatch(/\d mm\b(?! garden railways)/)
    const back = await get(`${base}/compare?from=2&to=1`)
    expect(back.text).toContain('Curve 2 of main taken out: radius 1.500 m')
    expect(back.text).toMatch(/Buy \d sticks? fewer, \d+\.00 USD less in all/)
    expect((await get(`${base}/compare`)).text).toContain('revision 1 and revision 2')
  })

  test('name what an easement leads to, which changes with its neighbour', async () => {
    const eased = (radius: number) => [tangent(1000), { kind: 'easement', length: 600 }, arc(radius)]
    const base = await twoRevisions(eased(2000), eased(3000))
    const { text } = await get(`${base}/compare?show=metric`)
    expect(text).toContain('1 easement changed and 1 curve changed.')
    expect(text).toContain(
      'Easement 2 of main changed: from straight to radius 2.000 m, 0.600 m long → from straight to radius 3.000 m, 0.600 m long',
    )
  })

  test('that are alike say so, also where something else was written differently', async () => {
    const base = await twoRevisions([tangent(3000)], [tangent('3 m')], { title: 'Pond' })
    const { text } = await get(`${base}/compare`)
    expect(text).toContain('As many sticks to buy, at the same cost. No element changed.')
    expect(text).toContain('Nothing: both need the same, at the same price.')
    expect(text).toContain('title: “nothing” in revision 1, in revision 2 “Pond”')
    expect((await get(`${base}/compare?from=2&to=2`)).text).toContain('Nothing: both plans are the same.')
  })

  test('that a track is new in, or is a track with another name in, are compared by its name', async () => {
    const { id } = await store().create(content([tangent(3000)]))
    const tracks = [
      { name: 'main', elements: [tangent(3000)] },
      { name: 'spur', start: { x: 0, y: 500 }, elements: [tangent(900)] },
    ]
    await store().replace(id, { ...content([]), plan: planOf([], { tracks }) }, 'any')
    const { text } = await get(`/plans/${id}/compare`)
    expect(text).toContain('1 straight added.')
    expect(text).toContain('Straight 2.1 of spur added: straight, 0.900 m')
  })

  test('of which one cannot be worked out say why', async () => {
    const { id } = await store().create(content([tangent(3000)]))
    await store().replace(id, { ...content([]), plan: planOf([{ kind: 'tangent', length: 'long' }]) }, 'any')
    const { status, text } = await get(`/plans/${id}/compare`)
    expect(status).toBe(200)
    expect(text).toContain('Revision 2 cannot be worked out')
    expect(text).toContain('What was written differently')
  })
})

describe('revisions that are not there', () => {
  test('are refused with those there are', async () => {
    const base = await twoRevisions([tangent(3000)], [tangent(4500)])
    for (const asked of ['from=7&to=2', 'from=1&to=x', 'from=0&to=2', 'from=01&to=2']) {
      const { status, text, markup } = await get(`${base}/compare?${asked}`)
      expect([asked, status]).toEqual([asked, 404])
      expect(text).toContain('they are numbered from 1 to 2')
      expect(markup).toContain(`href="${base}/compare"`)
    }
    expect((await get('/plans/01a2289d-b7ab-7151-a3ff-84081e2a686f/compare')).status).toBe(404)
  })

  test('of a deleted plan are as gone as the plan', async () => {
    const base = await twoRevisions([tangent(3000)], [tangent(4500)])
    await store().remove(base.replace('/plans/', ''), 'any')
    expect((await get(`${base}/compare?from=1&to=2`)).status).toBe(404)
  })
})

test('the list of revisions leads to each with the one before it', async () => {
  const base = await twoRevisions([tangent(3000)], [tangent(4500)])
  const { markup } = await get(`${base}/revisions`)
  expect(markup).toContain(`href="${base}/compare?from=1&amp;to=2"`)
  expect(markup).toContain(`href="${base}/compare"`)
})

test.each([
  // by hand
  ['20.00', '12.5', '7.50'],
  ['12.50', '20.00', '-7.50'],
  ['5', '5.00', '0.00'],
])('%s is more than %s by %s', (a, b, more) => {
  expect(moneyMore(a, b)).toBe(more)
})
