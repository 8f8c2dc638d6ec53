import { describe, expect, test } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { extensionOf } from '../../src/shed/extension-of.ts'
import { asRead } from '../estimate/plans.ts'

const rail = { section: '250', material: 'brass' }
const straight = { kind: 'tangent', length: '6 ft' }
const track = (name: string, more: object = {}) => ({ name, elements: [straight], ...more })
const tracksOf = (plan: Record<string, unknown>) => extensionOf(plan).tracks

describe('the plan that extends a built one', () => {
  test('has its tracks as existing, as they were written, and a blank one after the last', () => {
    expect(tracksOf({ rail, tracks: [track('main'), track('spur', { state: 'existing', label: 'old' })] })).toEqual([
      track('main', { state: 'existing' }),
      track('spur', { state: 'existing', label: 'old' }),
      { name: 'extension', start: { after: 'spur' }, elements: [] },
    ])
  })

  test('begins where an end is free', () => {
    const ends = (...tracks: object[]) => (tracksOf({ rail, tracks }) as { start?: object }[]).at(-1)!.start
    expect(ends(track('a'), track('b', { closed: true }))).toEqual({ after: 'a' })
    expect(ends(track('a', { closed: true }))).toBeUndefined()
    expect(ends(track('a', { joinsExisting: { end: true } }))).toBeUndefined()
    expect(ends(track('a'), track('b', { start: { after: 'a' }, end: { before: 'a' } }))).toBeUndefined()
  })

  test('calls the blank track otherwise where the name is taken', () => {
    const names = (tracksOf({ rail, tracks: [track('extension'), track('extension 2')] }) as { name: string }[]).map(
      ({ name }) => name,
    )
    expect(names).toEqual(['extension', 'extension 2', 'extension 3'])
  })

  test('leaves out what was lifted; a track that was placed by it gets its coordinates', () => {
    const tracks = [
      track('old', { state: 'lifted', start: { x: 100, y: 50 } }),
      track('new', { start: { after: 'old' } }),
      track('other', { start: { y: 900 }, end: { before: 'old' } }),
    ]
    const [first, second] = tracksOf({ rail, tracks }) as object[]
    // by hand: 100 + 6 × 304.8
    expect(first).toMatchObject({
      name: 'new',
      state: 'existing',
      start: { x: 1928.8, y: 50, heading: 0, elevation: 0 },
    })
    expect(second).toEqual(track('other', { state: 'existing', start: { y: 900 } }))
  })

  test('buys no extras again and counts nothing as on hand, with prices as they were', () => {
    const supplies = {
      currency: 'EUR',
      sticks: [
        { length: '5 ft', price: '14.50', onHand: 4 },
        { length: 700, onHand: 2, buyable: false },
      ],
      joiners: { packSize: 10, onHand: 6 },
      ties: { spacing: 50, onHand: 9, strip: { ties: 12, onHand: 3 } },
    }
    const plan = extensionOf({ rail, tracks: [track('main')], supplies, extras: [{ name: 'paint' }] })
    expect(plan).not.toHaveProperty('extras')
    expect(plan.supplies).toEqual({
      currency: 'EUR',
      sticks: [{ length: '5 ft', price: '14.50' }],
      joiners: { packSize: 10 },
      ties: { spacing: 50, strip: { ties: 12 } },
    })
  })

  test('buys only the new track once that is drawn', () => {
    const plan = extensionOf({ rail, tracks: [track('main')] }) as never as { tracks: object[] }
    const drawn = { ...plan, tracks: [...plan.tracks.slice(0, -1), { ...plan.tracks.at(-1), elements: [straight] }] }
    const result = estimate(asRead(drawn as never))
    if (!result.ok) throw new Error('no estimate')
    const { tracks, bill } = result.estimate
    // by hand: two rails of 6 ft in sticks of 5 ft, a foot each left of two of them: three sticks; 41 ties but the shared one.
    expect(bill.lines.find(({ item }) => item === 'rail-stick')!.required).toBe(3)
    expect(tracks.map(({ name, ties }) => [name, ties])).toEqual([
      ['main', 0],
      ['extension', 40],
    ])
  })

  test('of a plan that cannot be read is made all the same', () => {
    expect(extensionOf({ tracks: 'none', supplies: 3 })).toEqual({
      tracks: [{ name: 'extension', elements: [] }],
    })
    expect(extensionOf({})).toMatchObject({ tracks: [{ name: 'extension' }] })
  })
})
