import { describe, expect, it } from 'vitest'
import type { StandardsInput } from '../../src/plan/rows/standards.ts'
import type { ElementInput } from '../../src/plan/rows/track.ts'
import { arc, easement, estimateOf, planOf, straight } from '../estimate/plans.ts'

function found(rule: string, elements: ElementInput[], standards: StandardsInput = {}, closed = false) {
  return estimateOf(planOf(elements, { closed }, { standards })).findings.filter((finding) => finding.rule === rule)
}

describe('minimum-radius', () => {
  const standards = { minimumRadius: 2286 }

  it('a tighter arc stops the plan, with what was measured and the cure', () => {
    const findings = found('minimum-radius', [straight(500), arc(2000, 30, 'right')], standards)
    expect(findings).toMatchObject([
      { severity: 'stop', track: 'main', element: 1, measured: 2000, limit: 2286, unit: 'mm' },
    ])
    expect(findings[0]?.cure).toContain('2286 mm or more (diameter 4572 mm)')
  })

  it('is that of arcs: an easement out of one is told of with it', () => {
    const found2 = found('minimum-radius', [arc(2000, 30), easement(500), straight(100)], standards)
    expect(found2.map(({ element }) => element)).toEqual([0])
  })

  it('equal to the limit passes, within a millionth of a millimetre', () => {
    expect(found('minimum-radius', [arc(2286, 30)], standards)).toEqual([])
    expect(found('minimum-radius', [arc(2286 - 9e-7, 30)], standards)).toEqual([])
    expect(found('minimum-radius', [arc(2286 - 2e-6, 30)], standards)).toHaveLength(1)
  })

  it('is three times the longest car unless the plan says otherwise', () => {
    // by hand: 3 × 711.2 = 2133.6
    expect(found('minimum-radius', [arc(2133.5, 30)], { longestCar: 711.2 })).toMatchObject([
      { limit: expect.closeTo(2133.6, 9) },
    ])
    expect(found('minimum-radius', [arc(2000, 30)], { longestCar: 711.2, minimumRadius: 1900 })).toEqual([])
  })

  it('is 600 mm without a longest car (common practice, no source), which is an assumption', () => {
    const { findings, assumptions } = estimateOf(planOf([straight(500), arc(599, 30), arc(600, 30)]))
    expect(findings.filter(({ rule }) => rule === 'minimum-radius')).toMatchObject([
      { severity: 'stop', element: 1, limit: 600 },
    ])
    expect(assumptions).toContainEqual(expect.objectContaining({ field: '/standards/minimumRadius', value: '600 mm' }))
  })
})

describe('reverse-curve', () => {
  const standards = { minimumTangentBetweenReverseCurves: 700 }

  it.each([
    ['none', [arc(3000, 30), arc(3000, 30, 'right')], 0, 1],
    ['too little', [arc(3000, 30), straight(300), straight(350), arc(3000, 30, 'right')], 650, 3],
    ['eased into the second only', [arc(3000, 30), straight(100), easement(400), arc(3000, 30, 'right')], 100, 2],
    ['eased on one side only', [arc(3000, 30), easement(400), straight(100), arc(3000, 30, 'right')], 100, 3],
  ])('straight between: %s', (_, elements, measured, element) => {
    expect(found('reverse-curve', elements as ElementInput[], standards)).toMatchObject([
      { severity: 'warn', element, measured, limit: 700 },
    ])
  })

  it('says how much straight there is, and how much more it takes (by hand)', () => {
    const [some] = found('reverse-curve', [arc(3000, 30), straight(650), arc(3000, 30, 'right')], standards)
    expect(some!.message).toContain(
      'with only 650 mm of straight track between the two curves; at least 700 mm is required',
    )
    expect(some!.cure).toContain('Put 50 mm more straight track')
    const [none] = found('reverse-curve', [arc(3000, 30), arc(3000, 30, 'right')], standards)
    expect(none!.message).toContain('with no straight between')
  })

  it('enough straight, the same turn again, or only one curve is no reverse curve', () => {
    expect(found('reverse-curve', [arc(3000, 30), straight(700), arc(3000, 30, 'right')], standards)).toEqual([])
    expect(found('reverse-curve', [arc(3000, 30), straight(10), arc(2000, 30)], standards)).toEqual([])
    expect(found('reverse-curve', [straight(10), arc(3000, 30), straight(10)], standards)).toEqual([])
  })

  it('eased on both sides it is a note (NEM 111 §3.2 and NEM 113 ask for no straight then)', () => {
    const eased = [arc(3000, 30), easement(400), straight(50), easement(400), arc(3000, 30, 'right')]
    expect(found('reverse-curve', eased, standards)).toMatchObject([{ severity: 'note', element: 3, measured: 50 }])
    const through = [arc(3000, 30), easement(600), arc(3000, 30, 'right')]
    expect(found('reverse-curve', through, standards)).toMatchObject([{ severity: 'note', element: 1, measured: 0 }])
  })

  it('is found across the join of a closed track', () => {
    const elements = [straight(100), arc(3000, 30), straight(900), arc(3000, 30, 'right'), straight(50)]
    expect(found('reverse-curve', elements, standards, true)).toMatchObject([{ element: 1, measured: 150 }])
    expect(found('reverse-curve', elements, standards)).toEqual([])
  })

  it('takes the longest car where no length is asked for', () => {
    const elements = [arc(3000, 30), straight(700), arc(3000, 30, 'right')]
    expect(found('reverse-curve', elements, { longestCar: 711.2 })).toMatchObject([{ limit: 711.2 }])
    expect(found('reverse-curve', elements)).toEqual([])
  })
})

describe('curvature-jump', () => {
  it('is a note where the jump is worth less than 60 gauges: 2700 mm at 45 mm (NEM 113)', () => {
    expect(found('curvature-jump', [straight(500), arc(2699, 30)])).toMatchObject([
      { severity: 'note', element: 1, limit: 2700 },
    ])
    expect(found('curvature-jump', [straight(500), arc(2700, 30), straight(500)])).toEqual([])
  })

  it('between two arcs it is worth 1/|1/r2 − 1/r1|', () => {
    // by hand: 1/1500 − 1/3000 = 1/3000; opposed 3000s: 1/1500
    expect(found('curvature-jump', [arc(1500, 30), arc(3000, 30)])).toEqual([])
    const opposed = found('curvature-jump', [arc(3000, 30), arc(3000, 30, 'right')])
    expect(opposed[0]?.measured).toBeCloseTo(1500, 9)
  })

  it('an easement takes it away; a closed track is looked at across its join', () => {
    expect(found('curvature-jump', [straight(500), easement(400), arc(1500, 30)])).toEqual([])
    expect(found('curvature-jump', [straight(500), easement(400), arc(1500, 30)], {}, true)).toMatchObject([
      { element: 0 },
    ])
  })
})

describe('maximum-grade', () => {
  const climb = (points: [number, number][], maximumGradePct?: number) =>
    estimateOf(
      planOf(
        [straight(3000), arc(3000, 60), straight(3000)],
        { gradeLine: points.map(([at, elevation]) => ({ at, elevation })) },
        { standards: { maximumGradePct } },
      ),
    ).findings.filter(({ rule }) => rule === 'maximum-grade')

  it('warns of each steeper stretch, up or down, where it begins', () => {
    const findings = climb([
      [0, 0],
      [2000, 40],
      [4000, 100],
      [5000, 100],
      [6000, 60],
    ])
    expect(findings).toMatchObject([
      { severity: 'warn', element: 0, limit: 2, unit: '%' },
      { severity: 'warn', element: 1 },
    ])
    // by hand: 60 in 2000 is 3 %, 40 in 1000 is 4 %
    expect(findings[0]?.measured).toBeCloseTo(3, 9)
    expect(findings[1]?.measured).toBeCloseTo(4, 9)
    expect(findings[0]?.cure).toContain('Spread the height difference of 60 mm over 3000 mm, or reduce it by 20 mm.')
  })

  it('the limit itself passes, and can be set', () => {
    expect(
      climb([
        [0, 0],
        [3000, 60],
      ]),
    ).toEqual([])
    expect(
      climb(
        [
          [0, 0],
          [3000, 60],
        ],
        1.5,
      ),
    ).toHaveLength(1)
    expect(
      climb(
        [
          [0, 0],
          [3000, 60],
        ],
        0,
      ),
    ).toMatchObject([{ cure: 'Lay this stretch level.' }])
  })
})

describe('closure', () => {
  const oval = (straightMm: number, lastMm: number, lastAngleDeg = 180) => [
    straight(straightMm),
    arc(2400, 90),
    straight(1000),
    arc(2400, 90),
    straight(lastMm),
    arc(2400, lastAngleDeg / 2),
    straight(1000),
    arc(2400, lastAngleDeg / 2),
  ]

  it('a loop that closes, or misses by no more than the joints take up, passes', () => {
    expect(found('closure', oval(2000, 2000), {}, true)).toEqual([])
    expect(found('closure', oval(2000, 2002), {}, true)).toEqual([])
    expect(found('closure', oval(2000, 2000))).toEqual([])
    expect(found('closure', oval(2000, 2500))).toEqual([])
  })

  it('a gap under a thousandth of the length warns, a greater one stops, and the cure closes it', () => {
    // by hand: the loop is about 21 m, so 10 mm warns and 30 mm stops
    expect(found('closure', oval(2000, 2010), {}, true)).toMatchObject([
      { severity: 'warn', element: null, unit: 'mm' },
    ])
    const [finding] = found('closure', oval(2000, 2030), {}, true)
    expect(finding).toMatchObject({ severity: 'stop', limit: 2 })
    expect(finding?.measured).toBeCloseTo(30, 6)
    expect(finding?.cure).toBe('Make element 5 2000 mm long instead of 2030 mm.')
  })

  it('the tolerance can be set', () => {
    expect(found('closure', oval(2000, 2010), { closureGap: 10 }, true)).toEqual([])
  })

  it('a heading error is answered with the angle to change', () => {
    const headings = found('closure', oval(2000, 2000, 178), {}, true).filter(({ unit }) => unit === '°')
    expect(headings).toMatchObject([{ severity: 'stop', limit: 0.5 }])
    expect(headings[0]?.measured).toBeCloseTo(2, 9)
    expect(headings[0]?.message).toContain('right')
    // Two arcs of 89°: both were written wrongly.
    expect(headings[0]?.cure).toBe(
      'Make the angle of element 6 90° instead of 89°, make the angle of element 8 90° instead of 89°.',
    )
  })

  it('a heading error of up to twice the tolerance warns, to either side', () => {
    const heading = (lastAngleDeg: number) =>
      found('closure', oval(2000, 2000, lastAngleDeg), {}, true).filter(({ unit }) => unit === '°')
    expect(heading(179.5)).toEqual([])
    for (const [lastAngleDeg, severity, side] of [
      [179.4, 'warn', 'right'],
      [179, 'warn', 'right'],
      [178.9, 'stop', 'right'],
      [181, 'warn', 'left'],
    ] as const) {
      const [finding] = heading(lastAngleDeg)
      expect([lastAngleDeg, finding!.severity]).toEqual([lastAngleDeg, severity])
      expect(finding!.message).toContain(`too far to the ${side} `)
    }
    expect(heading(181)[0]!.cure).toContain('Make the angle of element 6 90° instead of 90.5°,')
  })

  it('a straight that is too long or too short is told by its number, with what to change', () => {
    const [short] = found('closure', [straight(30), arc(1200, 180), straight(20), arc(1200, 180)], {}, true)
    expect(short!.cure).toMatch(/^Make element (1 20 mm long instead of 30 mm|3 30 mm long instead of 20 mm)\.$/)
  })

  it('where no figures can close it the cure says so', () => {
    const [open] = found('closure', [straight(500), arc(1200, 178)], {}, true)
    expect(open!.cure).toMatch(/^No angles or lengths/)
  })

  it('the height is that of all its grades, and may be too low', () => {
    const closing = (...points: [number, number][]) =>
      estimateOf(
        planOf(oval(2000, 2000), { closed: true, gradeLine: points.map(([at, elevation]) => ({ at, elevation })) }),
      ).findings.filter(({ rule }) => rule === 'closure')
    const [above] = closing([0, 0], [5000, 0], [7500, 50])
    expect(above).toMatchObject({ severity: 'stop', limit: 2 })
    expect(above!.measured).toBeCloseTo(50, 9)
    expect(above!.message).toBe('The end is 50 mm above the start.')
    const [below] = closing([0, 0], [5000, 30], [9000, -10])
    expect(below).toMatchObject({ severity: 'warn', cure: expect.stringContaining('grade line') })
    expect(below!.message).toBe('The end is 10 mm below the start.')
  })

  it('a loop that does not come back to its height is told so', () => {
    const { findings } = estimateOf(
      planOf(oval(2000, 2000), {
        closed: true,
        gradeLine: [
          { at: 0, elevation: 0 },
          { at: 5000, elevation: 50 },
        ],
      }),
    )
    expect(findings).toMatchObject([{ rule: 'closure', severity: 'stop', measured: 50 }, ...notes(findings)])
  })

  const notes = (findings: readonly { severity: string }[]) => findings.filter(({ severity }) => severity === 'note')

  it('a track without curves cannot close', () => {
    const [gap] = found('closure', [straight(1000)], {}, true)
    expect(gap).toMatchObject({ severity: 'stop', measured: 1000 })
  })
})

describe('not-checked', () => {
  const elements = [arc(3000, 30), arc(3000, 30, 'right')]

  it('is a note on the whole plan where nothing says how long the straight between reverse curves must be', () => {
    expect(found('not-checked', elements)).toMatchObject([{ severity: 'note', track: null, element: null }])
    expect(found('not-checked', elements, { minimumRadius: 1000 })).toHaveLength(1)
  })

  it('is not found with a longest car, or with that length itself, even zero', () => {
    expect(found('not-checked', elements, { longestCar: 700 })).toEqual([])
    expect(found('not-checked', elements, { minimumTangentBetweenReverseCurves: 0 })).toEqual([])
  })
})
