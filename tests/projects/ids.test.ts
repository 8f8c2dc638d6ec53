import fc from 'fast-check'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { isProjectId, newId } from '../../src/projects/ids.ts'

function timeOf(id: string): number {
  return Number.parseInt(id.replaceAll('-', '').slice(0, 12), 16)
}

afterEach(() => {
  vi.restoreAllMocks()
})

describe('ids of projects', () => {
  test('are UUIDs of version 7', () => {
    const id = newId()
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/)
    expect(isProjectId(id)).toBe(true)
    expect(isProjectId(`${id}0`)).toBe(false)
    expect(isProjectId(id.replaceAll('-', ''))).toBe(false)
  })

  test('ascend for any course of the clock, and never lag behind it', () => {
    const clock = vi.spyOn(Date, 'now')
    let last = newId()
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 2 ** 48 - 2 ** 20 }), { minLength: 2, maxLength: 50 }),
        (times) => {
          for (const timeMs of times) {
            clock.mockReturnValue(timeMs)
            const id = newId()
            expect(id > last).toBe(true)
            expect(timeOf(id)).toBeGreaterThanOrEqual(timeMs)
            last = id
          }
        },
      ),
    )
  })

  test('ascend through 10,000 in one millisecond', () => {
    vi.spyOn(Date, 'now').mockReturnValue(1_000)
    const ids = Array.from({ length: 10_000 }, () => newId())
    expect(ids).toEqual(ids.toSorted())
    expect(new Set(ids).size).toBe(10_000)
  })
})
