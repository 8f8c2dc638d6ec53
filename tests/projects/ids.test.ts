import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isProjectId, projectIdMaker } from '../../src/projects/ids.ts'

const zeros = (size: number) => Buffer.alloc(size)
const ones = (size: number) => Buffer.alloc(size, 0xff)

function timeOf(id: string): number {
  return Number.parseInt(id.replaceAll('-', '').slice(0, 12), 16)
}

describe('ids of projects', () => {
  test('have the layout of RFC 9562, appendix A.6 (published: 017F22E2-79B0-7CC3-98C4-DC0C0C07398F)', () => {
    // The appendix's time is 1645557742000 ms; its random bits are 0xCC3 and 0x18C4DC0C0C07398F. The counter starts
    // with its top bit clear, so 0xCC3 becomes 0x4C3.
    const bytes = Buffer.from('0000000000000cc398c4dc0c0c07398f', 'hex')
    const newId = projectIdMaker(
      () => 1_645_557_742_000,
      () => bytes,
    )
    expect(newId()).toBe('017f22e2-79b0-74c3-98c4-dc0c0c07398f')
  })

  test('carry version 7 and the variant whatever the random bits are', () => {
    for (const random of [zeros, ones]) {
      const id = projectIdMaker(() => 1, random)()
      expect(id).toMatch(/^00000000-0001-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
      expect(isProjectId(id)).toBe(true)
    }
  })

  test('ascend for any course of the clock, and never lag behind it', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 2 ** 48 - 2 }), { minLength: 2, maxLength: 50 }), (clock) => {
        let at = 0
        const newId = projectIdMaker(() => clock[at]!)
        const ids: string[] = []
        for (at = 0; at < clock.length; at += 1) ids.push(newId())
        expect(ids).toEqual(ids.toSorted())
        expect(new Set(ids).size).toBe(ids.length)
        for (const [index, id] of ids.entries()) expect(timeOf(id)).toBeGreaterThanOrEqual(clock[index]!)
      }),
    )
  })

  test.each([
    ['from the lowest start of the counter', zeros],
    ['from the highest', ones],
  ])('ascend through 10,000 in one millisecond, %s', (_, random) => {
    const newId = projectIdMaker(() => 1_000, random)
    const ids = Array.from({ length: 10_000 }, newId)
    expect(ids).toEqual(ids.toSorted())
    expect(new Set(ids).size).toBe(10_000)
    // The counter's 12 bits hold at most 4,096, then a millisecond is borrowed.
    expect(timeOf(ids.at(-1)!)).toBeLessThanOrEqual(1_003)
  })
})
