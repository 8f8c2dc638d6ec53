import { describe, expect, it } from 'vitest'
import { reasonInWords } from '../../../src/bending/forming/reason.ts'
import { adviseMethod, type MethodAdvice, type MethodCase } from '../../../src/bending/method.ts'
import { USUAL_LIMITS } from '../rails.ts'

const HAND: MethodCase = {
  work: 'loose-rail',
  wantedRadiusMm: 1488,
  tieSpacingMm: 45,
  jointsInBend: 0,
  springMomentNmm: 2475,
  setShare: 0.3123,
  overbendRatio: 1.5,
  momentNmm: 6000,
  leftToTiesNmm: 1350,
}
const WITHIN = 'Force, overbend ratio and joints are all within the limits for bending by hand.'
const FLAT = (newtons: number) =>
  `Hands leave the ends of a stick straight: at a joint, set them round a form, or let the ties pull them in with ${newtons} N each.`
const said = (more: Partial<MethodCase>) =>
  reasonInWords(adviseMethod({ ...HAND, ...more }, USUAL_LIMITS), USUAL_LIMITS)

describe('the reason in words', () => {
  it('for springing in is what sets and what the ties hold', () => {
    expect(said({ setShare: 0.0123 })).toBe(
      'The ties can hold the rail in the curve: 55 N on each of the last two, where 60 N is allowed; 1.2 % of the curvature would set.',
    )
    expect(said({ setShare: 0, work: 'assembled' })).toContain('allowed; 0 % of')
  })

  it.each([
    [{}, 'The rail would not spring in: 31.2 % of the curvature would set; up to 10 % is allowed.', WITHIN],
    [
      { setShare: 0, springMomentNmm: 3825 },
      'Sprung in, the rail would push on the last ties with 85 N each; 60 N is allowed.',
      WITHIN,
    ],
    [
      { setShare: 0, springMomentNmm: 3600, tieSpacingMm: 60, jointsInBend: 1 },
      'Sprung in, the rail would push on the ties at a joint with 24 N, even with set ends; 20 N is allowed.',
      `It can be bent by hand. ${FLAT(60)}`,
    ],
  ])('for bending by hand begins with what is against springing in: %j', (more, why, byHand) => {
    expect(said(more)).toBe(`${why} ${byHand}`)
  })

  it('names what the ties hold of a bend that hands cannot make even, and of the ends that they leave straight', () => {
    const uneven =
      'Bent as far as comes out even by hand and eye, to an overbend ratio of 2, it leaves the last ties 30 N to hold; 60 N is allowed.'
    const byHand = (more: Partial<MethodCase>) => said(more).replace(/^.*? allowed\. /, '')
    expect(byHand({ overbendRatio: 2 })).toBe(WITHIN)
    expect(byHand({ overbendRatio: 2.1 })).toBe(`It can be bent by hand. ${uneven}`)
    expect(byHand({ jointsInBend: 1 })).toBe(`It can be bent by hand. ${FLAT(55)}`)
    expect(byHand({ jointsInBend: 1, overbendRatio: 2.1 })).toBe(`It can be bent by hand. ${uneven} ${FLAT(55)}`)
    // 300²/(8·5625) = 2 mm
    expect(byHand({ jointsInBend: 1, wantedRadiusMm: 5625 })).toBe(WITHIN)
  })

  it.each([
    [
      'assembled',
      { work: 'assembled' },
      'Assembled track, with both rails and its ties, can only be bent by a machine.',
    ],
    [
      'hand-force',
      { momentNmm: 37_020 },
      'It takes 123 N from each hand with the hands 300 mm apart; up to 100 N is comfortable.',
    ],
    [
      'overbend',
      { overbendRatio: 2.345, leftToTiesNmm: 3060 },
      'The overbend ratio is 2.35; by hand and eye, bends come out even up to a ratio of 2, and that would leave the last ties 68 N to hold.',
    ],
    [
      'left-to-ties',
      { leftToTiesNmm: 3060 },
      'bends come out even up to an overbend ratio of 2. On the way into this curve, that would leave the last ties 68 N to hold; 60 N is allowed.',
    ],
    [
      'joints',
      { jointsInBend: 1, springMomentNmm: 3825 },
      'at a joint in this curve the rail would be 7.6 mm off, where 2 mm is allowed, and the ties cannot pull it in.',
    ],
  ] as const)('%s is given with the figure that decided', (reason, more, words) => {
    const advice: MethodAdvice = adviseMethod({ ...HAND, ...more }, USUAL_LIMITS)
    expect(advice).toMatchObject({ method: 'machine', reason })
    expect(said(more)).toContain(words)
  })

  it('says once that it takes too much force', () => {
    const limits = { ...USUAL_LIMITS, handForceN: 5 }
    expect(reasonInWords(adviseMethod({ ...HAND, setShare: 0 }, limits), limits)).toBe(
      'It takes 20 N from each hand with the hands 300 mm apart; up to 5 N is comfortable.',
    )
  })
})
