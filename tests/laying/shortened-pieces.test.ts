import { describe, expect, it } from 'vitest'
import type { CutPlan, PlannedStick } from '../../src/laying/cut-plan.ts'
import { type OpenJoint, withGaps } from '../../src/laying/shortened-pieces.ts'

const RULES = { kerfMm: 1, minimumPieceMm: 150 }

function planOf(...sticks: Partial<PlannedStick>[]): CutPlan {
  const whole = sticks.map((stick) => ({
    lengthMm: 1000,
    fromStock: false,
    kerfMm: 0,
    trimMm: 0,
    offcutMm: 0,
    pieces: [],
    ...stick,
  }))
  return { sticks: whole, piecesPerRun: [], sticksLowerBound: 1, wasteMm: 0, reusableMm: 0, shortPieces: [] }
}

const joint = (atMm: number, gapMm: number, kind: OpenJoint['kind'] = 'joiner'): OpenJoint => ({
  track: 0,
  rail: 'left',
  atMm,
  kind,
  gapMm,
})

const open = (lengthMm: number) => [{ lengthMm, closed: false }]

describe('pieces with gaps between them', () => {
  it('give half of each gap at either side; a whole stick is then cut, and the cut takes what it loses', () => {
    const plan = planOf(
      { pieces: [{ run: 0, fromMm: 0, lengthMm: 1000, trimMm: 0 }] },
      { pieces: [{ run: 0, fromMm: 1000, lengthMm: 600, trimMm: 0 }], kerfMm: 1, offcutMm: 399 },
    )
    const cut = withGaps(plan, [joint(1000, 1.5)], open(1600), RULES)
    // By hand: 0.75 mm off each; the whole stick loses it in a cut of less than the kerf, the other adds it to its offcut.
    expect(cut.sticks[0]).toMatchObject({ kerfMm: 0.75, offcutMm: 0, pieces: [{ fromMm: 0, lengthMm: 999.25 }] })
    expect(cut.sticks[1]).toMatchObject({
      kerfMm: 1,
      offcutMm: 399.75,
      pieces: [{ fromMm: 1000.75, lengthMm: 599.25 }],
    })
    expect(cut.wasteMm).toBeCloseTo(401.5, 9)
    expect(cut.reusableMm).toBeCloseTo(399.75, 9)
  })

  it('a cut that was thinner than the kerf grows up to it, the rest is left over', () => {
    const plan = planOf({ pieces: [{ run: 0, fromMm: 0, lengthMm: 999.6, trimMm: 0 }], kerfMm: 0.4 })
    const cut = withGaps(plan, [joint(999.6, 3, 'join')], open(999.6), RULES)
    // By hand: all 3 mm come off this piece, since the track beyond is not cut; 3.4 mm are a cut of 1 and 2.4 left over.
    expect(cut.sticks[0]!.pieces[0]!.lengthMm).toBeCloseTo(996.6, 9)
    expect(cut.sticks[0]!.kerfMm).toBeCloseTo(1, 9)
    expect(cut.sticks[0]!.offcutMm).toBeCloseTo(2.4, 9)
  })

  it('a loop of one piece gives half at either end', () => {
    const plan = planOf({ pieces: [{ run: 0, fromMm: 0, lengthMm: 800, trimMm: 0 }], kerfMm: 1, offcutMm: 199 })
    const cut = withGaps(plan, [joint(0, 2, 'closing')], [{ lengthMm: 800, closed: true }], RULES)
    expect(cut.sticks[0]!.pieces).toEqual([{ run: 0, fromMm: 1, lengthMm: 798, trimMm: 0 }])
  })

  it('a piece that gets too short is told, one that is long enough is not told any more', () => {
    const pieces = [
      { run: 0, fromMm: 0, lengthMm: 151, trimMm: 0 },
      { run: 0, fromMm: 151, lengthMm: 152, trimMm: 0 },
    ]
    const plan = { ...planOf({ pieces, kerfMm: 2, offcutMm: 695 }), shortPieces: [{ run: 0, lengthMm: 152 }] }
    const cut = withGaps(plan, [joint(151, 3)], open(303), RULES)
    expect(cut.shortPieces).toEqual([{ run: 0, lengthMm: 149.5 }])
  })
})
