import { expect, it } from 'vitest'
import { namedIn } from './named-slips.ts'

// Several seeds, so that no threshold can be fitted to one.
it.each([12, 1, 2])(
  'names 8 mm wrong among noise of 0.3 mm in 90 %% of 200 random curves (seed %i), and a right reading in under 3 %%',
  (seed) => {
    const { found, falsely, displacedCalled } = namedIn({ curves: 200, seed, stations: [16, 50] })
    expect(found).toBeGreaterThanOrEqual(180)
    expect(falsely).toBeLessThan(6)
    expect(displacedCalled).toBeLessThan(6)
  },
  300_000,
)
