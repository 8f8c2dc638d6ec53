import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { CutPlan } from '../../src/laying/cutting/cut-plan.ts'
import { RunTrim } from '../../src/laying/cutting/trim.ts'
import { alongRails, dividedRail } from '../../src/laying/divided-rails.ts'

describe('a rail divided at its breaks', () => {
  it('without a break is one run; breaks at its ends or within the slack of them divide nothing', () => {
    expect(dividedRail(3, { lengthMm: 1000 }, [])).toEqual([{ rail: 3, startMm: 0, lengthMm: 1000 }])
    expect(dividedRail(0, { lengthMm: 1000 }, [0, 1e-9, 1000 - 1e-9, 1000])).toHaveLength(1)
  })

  it('is trimmed by the place on the whole rail', () => {
    const bends = [{ fromMm: 300, toMm: 500 }]
    const trim = new RunTrim({ bends, eachMm: 50, creepMm: (mm) => mm / 100, creepAt: 'end' })
    const [before, after] = dividedRail(0, { lengthMm: 1000, trim }, [400])
    // by hand: the bend is 300 to 400 of the first run, 0 to 100 of the second; the creep is a hundredth of the piece
    expect(before!.trim!.ofPiece(0, 400)).toEqual({ startMm: 0, endMm: 54 })
    expect(after!.trim!.ofPiece(0, 200)).toEqual({ startMm: 50, endMm: 2 })
    expect(after!.trim!.ofPiece(200, 600)).toEqual({ startMm: 0, endMm: 4 })
  })

  it('has runs that make up the rail, each where the one before ends', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 9 }),
        (lengthMm, shares) => {
          const breaks = [...new Set(shares.map((share) => share * lengthMm))].sort((a, b) => a - b)
          const runs = dividedRail(0, { lengthMm }, breaks)
          expect(runs.reduce((sum, run) => sum + run.lengthMm, 0)).toBeCloseTo(lengthMm, 6)
          for (const [n, run] of runs.entries()) {
            const before = runs[n - 1]
            expect(run.startMm).toBeCloseTo(before ? before.startMm + before.lengthMm : 0, 9)
          }
        },
      ),
    )
  })

  it('is told whole again: pieces by rail and by place along it', () => {
    const runs = [...dividedRail(0, { lengthMm: 1000 }, [400]), ...dividedRail(1, { lengthMm: 900 }, [])]
    const stick = { lengthMm: 1000, fromStock: false, kerfMm: 0, trimMm: 0, offcutMm: 0 }
    const plan: CutPlan = {
      sticks: [
        {
          ...stick,
          pieces: [
            { run: 0, fromMm: 0, lengthMm: 400, trimStartMm: 0, trimEndMm: 0 },
            { run: 1, fromMm: 100, lengthMm: 500, trimStartMm: 0, trimEndMm: 0 },
          ],
        },
        {
          ...stick,
          pieces: [
            { run: 2, fromMm: 0, lengthMm: 900, trimStartMm: 0, trimEndMm: 0 },
            { run: 1, fromMm: 0, lengthMm: 100, trimStartMm: 0, trimEndMm: 0 },
          ],
        },
      ],
      piecesPerRun: [1, 2, 1],
      sticksLowerBound: 2,
      wasteMm: 100,
      reusableMm: 0,
      shortPieces: [
        { run: 1, lengthMm: 100 },
        { run: 2, lengthMm: 90 },
      ],
    }
    const whole = alongRails(plan, runs, 2)
    expect(whole.piecesPerRun).toEqual([3, 1])
    expect(whole.sticks.map(({ pieces }) => pieces)).toEqual([
      [
        { run: 0, fromMm: 0, lengthMm: 400, trimStartMm: 0, trimEndMm: 0 },
        { run: 0, fromMm: 500, lengthMm: 500, trimStartMm: 0, trimEndMm: 0 },
      ],
      [
        { run: 1, fromMm: 0, lengthMm: 900, trimStartMm: 0, trimEndMm: 0 },
        { run: 0, fromMm: 400, lengthMm: 100, trimStartMm: 0, trimEndMm: 0 },
      ],
    ])
    expect(whole.shortPieces).toEqual([
      { run: 0, lengthMm: 100 },
      { run: 1, lengthMm: 90 },
    ])
  })
})
