import { describe, expect, it } from 'vitest'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { estimateFromStock } from '../../src/shed/from-stock.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { rememberedEstimate } from '../../src/workers/remembered-estimates.ts'

function planOf(length: number, label?: string) {
  const sent = {
    rail: { section: '250', material: 'brass' },
    tracks: [{ name: 'main', elements: [{ kind: 'tangent', length, label }] }],
  }
  const read = readPlan(JSON.parse(JSON.stringify(sent)))
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

describe('a remembered estimate', () => {
  it('is that of the plan, its stock and the parts asked for', () => {
    const stock = { ...NOTHING, ties: 7 }
    for (const asked of [
      { plan: planOf(3000), stock: NOTHING },
      { plan: planOf(3001), stock: NOTHING },
      { plan: planOf(3000), stock },
      { plan: planOf(3000), stock: NOTHING, parts: ['bill'] as const },
      { plan: planOf(3000), stock: NOTHING, sent: { tracks: [] } },
    ])
      for (const _ of ['first', 'again', 'once more'])
        expect(rememberedEstimate(asked)).toEqual(
          estimateFromStock(asked.plan, asked.stock, { parts: asked.parts, sent: asked.sent }),
        )
  })

  it('is kept from the second time on while few others are asked for, and worked out again after many', () => {
    const asked = { plan: planOf(4000), stock: NOTHING }
    const first = rememberedEstimate(asked)
    rememberedEstimate({ plan: planOf(4001), stock: NOTHING })
    const second = rememberedEstimate(asked)
    expect(second).not.toBe(first)
    expect(rememberedEstimate(asked)).toBe(second)
    for (let n = 0; n < 500; n++)
      for (const _ of ['first', 'again']) rememberedEstimate({ plan: planOf(100 + n), stock: NOTHING, parts: ['bill'] })
    expect(rememberedEstimate(asked)).not.toBe(second)
  })

  it('is not kept if the second time is long after the first', () => {
    const asked = { plan: planOf(5000), stock: NOTHING }
    rememberedEstimate(asked)
    for (let n = 0; n < 200; n++) rememberedEstimate({ plan: planOf(100 + n), stock: NOTHING, parts: ['bends'] })
    const second = rememberedEstimate(asked)
    expect(rememberedEstimate(asked)).not.toBe(second)
  })
})
