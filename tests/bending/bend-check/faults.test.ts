import { describe, expect, it } from 'vitest'
import { checkBend } from '../../../src/bending/bend-check/check.ts'
import type { BendCheckInput } from '../../../src/bending/bend-check/types.ts'

const SOUND: BendCheckInput = { chordMm: 500, readingsMm: [0, 10, 20, 10, 0] }

function faultsOf(change: Partial<BendCheckInput>): string[] {
  const result = checkBend({ ...SOUND, ...change })
  return result.ok ? [] : result.faults.map(({ path, code }) => `/${path.join('/')} ${code}`)
}

describe('an input that cannot be checked', () => {
  it.each<[Partial<BendCheckInput>, string[]]>([
    [
      { chordMm: 0 },
      ['/chord out-of-range', '/readings/1 out-of-range', '/readings/2 out-of-range', '/readings/3 out-of-range'],
    ],
    [{ chordMm: Number.NaN }, ['/chord out-of-range']],
    [{ chordMm: Number.POSITIVE_INFINITY }, ['/chord out-of-range']],
    [{ readingsMm: [] }, ['/readings too-few']],
    [{ readingsMm: [null, null] }, ['/readings too-few']],
    [{ readingsMm: new Array(501).fill(0) }, ['/readings too-many']],
    [{ readingsMm: [0, 250.01, -250.01] }, ['/readings/1 out-of-range', '/readings/2 out-of-range']],
    [{ readingsMm: [Number.NaN, Number.NEGATIVE_INFINITY] }, ['/readings/0 out-of-range', '/readings/1 out-of-range']],
    [{ radiusMm: 0 }, ['/radius out-of-range']],
    [{ radiusMm: Number.POSITIVE_INFINITY }, ['/radius out-of-range']],
    [{ radiusMm: 249.9 }, ['/radius contradictory']],
    [{ proposedMm: [0, 10, 20, 10] }, ['/proposed contradictory']],
    [{ proposedMm: [0, 10, 251, 10, 0] }, ['/proposed/2 out-of-range']],
    [{ spacingMm: 0 }, ['/spacing out-of-range']],
    [{ spacingMm: -250 }, ['/spacing out-of-range']],
    [{ resolutionMm: -0.1 }, ['/resolution out-of-range']],
    [{ tolerancePct: 100.1 }, ['/tolerancePct out-of-range']],
    [{ fixed: [5] }, ['/fixed/0 out-of-range']],
    [{ fixed: [-1] }, ['/fixed/0 out-of-range']],
    [{ fixed: [1.5] }, ['/fixed/0 out-of-range']],
    [{ fixed: [2, 1, 2] }, ['/fixed/2 contradictory']],
    [{ maximumThrowMm: -1 }, ['/maximumThrow out-of-range']],
  ])('%j', (change, expected) => {
    expect(faultsOf(change)).toEqual(expected)
  })

  it('is told every fault at once', () => {
    const faults = faultsOf({
      readingsMm: [300, null],
      radiusMm: 200,
      proposedMm: [999],
      spacingMm: 0,
      fixed: [0, 0, 9],
    })
    expect(faults).toEqual([
      '/readings/0 out-of-range',
      '/radius contradictory',
      '/proposed contradictory',
      '/proposed/0 out-of-range',
      '/spacing out-of-range',
      '/fixed/1 contradictory',
      '/fixed/2 out-of-range',
    ])
  })
})

describe('an input at the edge of what can be', () => {
  it.each<Partial<BendCheckInput>>([
    { readingsMm: [250, -250] },
    { radiusMm: 250 },
    { resolutionMm: 0, tolerancePct: 0 },
    { fixed: [0, 4] },
    { fixed: [] },
    { maximumThrowMm: 0 },
    { readingsMm: new Array(500).fill(0) },
    { chordMm: 1e-3, readingsMm: [0, 1e-4, 0] },
    { chordMm: 1_000_000, readingsMm: [0, 400_000, 0] },
  ])('%j is checked', (change) => {
    expect(faultsOf(change)).toEqual([])
  })
})
