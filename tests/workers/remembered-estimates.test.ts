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
      for (const _ of ['first', 'again'])
        expect(rememberedEstimate(asked)).toEqual(
          estimateFromStock(asked.plan, asked.stock, { parts: asked.parts, sent: asked.sent }),
        )
  })

  it('is worked out once while few others are asked for, and again after many', () => {
    const first = rememberedEstimate({ plan: planOf(4000), stock: NOTHING })
    rememberedEstimate({ plan: planOf(4001), stock: NOTHING })
    expect(rememberedEstimate({ plan: planOf(4000), stock: NOTHING })).toBe(first)
    for (let n = 0; n < 500; n++) rememberedEstimate({ plan: planOf(100 + n), stock: NOTHING, parts: ['bill'] })
    expect(rememberedEstimate({ plan: planOf(4000), stock: NOTHING })).not.toBe(first)
  })
})
