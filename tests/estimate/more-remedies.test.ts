import { describe, expect, it } from 'vitest'
import { patched } from '../../src/fitting/json-patch.ts'
import { cases } from '../cases.ts'
import { randomFrom } from '../random.ts'
import { findingsOf, isGone, remediesCarriedOut } from './carried-out.ts'
import { BRASS_250 } from './plans.ts'

const straight = (length: number | string) => ({ kind: 'tangent', length })
const arc = (radius: number | string, angle: number, turn = 'left') => ({ kind: 'arc', radius, angle, turn })

function sent(tracks: readonly object[], plan: object = {}): object {
  return { rail: BRASS_250, tracks: tracks.map((track, n) => ({ name: `t${n + 1}`, ...track })), ...plan }
}

/** 74 mm for the cars, 26 for the bridge with rails of 6.35 mm. */
const LOW_BRIDGE = { standards: { clearance: 74, deckThickness: 19.65 } }

describe('a track that crosses itself', () => {
  // East 2000, 270° to the left, back over itself: the way from the first passing to the second is 2000 + 270° · 1000.
  const loop = [straight(2000), arc(1000, 270), straight(1500)]

  it('is led over itself where the grade allows it (by hand: 100 + 2 mm over 6712 mm are 1.5 %)', () => {
    const plan = sent([{ elements: loop }], LOW_BRIDGE)
    const [first] = remediesCarriedOut(plan, 'self-crossing')
    const at = Number((3000 + 1500 * Math.PI).toFixed(1))
    expect(first).toEqual([
      { op: 'add', path: '/tracks/0/gradeLine', value: [] },
      ...[
        { at: 0, elevation: 0 },
        { at: 1000, elevation: 0 },
        { at, elevation: 102 },
      ].map((value) => ({ op: 'add', path: '/tracks/0/gradeLine/-', value })),
    ])
    expect(isGone(plan, first!, 'self-crossing')).toBe(true)
  })

  it('is not led over itself more steeply than the plan allows', () => {
    const remedies = remediesCarriedOut(
      sent([{ elements: loop }], { standards: { ...LOW_BRIDGE.standards, maximumGradePct: 1 } }),
      'self-crossing',
    )
    expect(JSON.stringify(remedies)).not.toContain('gradeLine')
  })

  it('comes down again where it is closed', () => {
    const eight = [straight(3000), arc(3000, 270), straight(6000), arc(3000, 270, 'right'), straight(3000)]
    const plan = sent([{ closed: true, elements: eight }])
    const [first] = remediesCarriedOut(plan, 'self-crossing')
    // Without a point of its own for the crossing at the start.
    expect(first!.length).toBe(4)
    // High enough for the cars and the bridge.
    expect(findingsOf(patched(plan, first!)).filter(({ severity }) => severity !== 'note')).toEqual([])
  })
})

describe('two tracks that cross', () => {
  const across = (start: object, length: number) => ({
    start: { x: 10_000, y: -length / 2, heading: 90, ...start },
    elements: [straight(length)],
  })

  // By hand: 102 mm at 99 % of 2 % are ramps of 5151.5 mm.
  const hump = (at: number, elevation: number) => [
    [],
    { at: 0, elevation: 0 },
    { at: at - 5151.5, elevation: 0 },
    { at, elevation },
    { at: at + 5151.5, elevation: 0 },
  ]

  it('one is lifted, or led over the other, or under it', () => {
    const plan = sent([{ elements: [straight(20_000)] }, across({}, 15_000)], LOW_BRIDGE)
    const remedies = remediesCarriedOut(plan, 'self-crossing')
    expect(remedies[0]).toEqual([{ op: 'add', path: '/tracks/1/start/elevation', value: 102 }])
    expect(remedies[1]!.map(({ value }) => value)).toEqual(hump(7500, 102))
    expect(remedies[2]!.map(({ value }) => value)).toEqual(hump(10_000, -102))
    expect(remedies[3]).toEqual([{ op: 'add', path: '/tracks/0/start', value: { elevation: 102 } }])
  })

  it('with too low a bridge the upper one is raised, or the lower one lowered, on ramps both ways', () => {
    const plan = sent([{ elements: [straight(20_000)] }, across({ elevation: 150 }, 15_000)], {
      standards: { clearance: 204, deckThickness: 19.65 },
    })
    // 230 mm are needed from rail to rail, 80 are missing: 82 mm at 1.98 % are 4141.4 mm.
    const remedies = remediesCarriedOut(plan, 'over-crossing')
    expect(remedies[0]!.map(({ value }) => value)).toEqual([
      [],
      { at: 0, elevation: 150 },
      { at: 3358.6, elevation: 150 },
      { at: 7500, elevation: 232 },
      { at: 11_641.4, elevation: 150 },
    ])
    expect(remedies[1]![3]!.value).toEqual({ at: 10_000, elevation: -82 })
    expect(remedies[2]).toEqual([{ op: 'replace', path: '/tracks/1/start/elevation', value: 232 }])
    for (const remedy of remedies) expect(isGone(plan, remedy, 'over-crossing')).toBe(true)
  })

  it('vertical curves of the grade line are kept, and the ramps get such too', () => {
    const gradeLine = [
      { at: 1000, elevation: 150, verticalCurve: 600 },
      { at: 3000, elevation: 170, verticalCurve: 600 },
    ]
    const plan = sent([{ elements: [straight(20_000)] }, { ...across({}, 16_000), gradeLine }], {
      standards: { clearance: 174, deckThickness: 19.65 },
    })
    const remedies = remediesCarriedOut(plan, 'over-crossing')
    // 30 + 2 mm are missing, and 2 · 1.98 % · 600 / 8 for the curve on top: 34.97 mm, 1766.2 mm of ramp and 300 mm more.
    expect(remedies[0]!.slice(1).map(({ value }) => value)).toEqual([
      gradeLine[0],
      gradeLine[1],
      { at: 5933.8, elevation: 170, verticalCurve: 600 },
      { at: 8000, elevation: 205, verticalCurve: 600 },
      { at: 10_066.2, elevation: 170, verticalCurve: 600 },
    ])
  })

  it('over the start of a closed track', () => {
    const circle = { closed: true, elements: [arc(4000, 360)] }
    const radial = { start: { x: 0, y: -1500, heading: 90 }, elements: [straight(3000)] }
    const plan = sent([{ ...circle, start: { elevation: 100 } }, radial], {
      standards: { clearance: 104, deckThickness: 19.65 },
    })
    // The bridge is at the very start of the circle.
    const remedies = remediesCarriedOut(plan, 'over-crossing')
    expect(remedies.some((remedy) => remedy.some(({ path }) => path === '/tracks/0/gradeLine'))).toBe(true)
  })
})

describe('a piece that is too short', () => {
  const track = (breaks: readonly object[]) => sent([{ elements: [straight(5000)], breaks }])

  it('gets longer by a break moved (by hand: from 1000 on 150 mm are needed)', () => {
    const plan = track([
      { at: 1000, kind: 'bridge-end' },
      { at: 1100, kind: 'insulated' },
    ])
    const remedies = remediesCarriedOut(plan, 'piece-too-short')
    expect(remedies[0]).toEqual([{ op: 'replace', path: '/tracks/0/breaks/1/at', value: 1150 }])
    expect(remedies[1]).toEqual([{ op: 'replace', path: '/tracks/0/breaks/0/at', value: 950 }])
    expect(isGone(plan, remedies[0]!, 'piece-too-short')).toBe(true)
  })

  it('at an end of the track as well, in the units of the plan', () => {
    const plan = track([{ at: '4 in', kind: 'insulated' }])
    // by hand: the usual least piece of 150 mm is 5.906 in, in eighths 6 in
    expect(remediesCarriedOut(plan, 'piece-too-short')[0]).toEqual([
      { op: 'replace', path: '/tracks/0/breaks/0/at', value: '6 in' },
    ])
  })

  it('because the whole track is too short: its straight is made longer', () => {
    const plan = sent([{ elements: [straight(120)] }])
    expect(remediesCarriedOut(plan, 'piece-too-short')[0]).toEqual([
      { op: 'replace', path: '/tracks/0/elements/0/length', value: 150 },
    ])
  })
})

describe('joints that are not where they should be', () => {
  it('a break inside a stretch without joints is moved to its nearer end', () => {
    const plan = sent([
      {
        elements: [straight(6000)],
        keepOut: [{ from: 2000, to: 3000, reason: 'path' }],
        breaks: [{ at: 2800, kind: 'insulated' }],
      },
    ])
    const remedies = remediesCarriedOut(plan, 'joint-in-keep-out')
    expect(remedies.map(([step]) => step!.value)).toEqual([3000, 2000])
  })

  it('a stagger that the sticks cannot keep becomes the one they do', () => {
    const plan = sent([{ elements: [straight(7000)] }], {
      joints: { stagger: 900 },
      supplies: { sticks: [{ length: 1524 }] },
    })
    const found = findingsOf(plan).find(({ rule }) => rule === 'joints-too-near')!
    const [remedy] = remediesCarriedOut(plan, 'joints-too-near')
    expect(remedy).toEqual([{ op: 'replace', path: '/joints/stagger', value: Math.floor(found.measured!) }])
    expect(isGone(plan, remedy!, 'joints-too-near')).toBe(true)
  })
})

it('every remedy offered for a random plan with such findings can be carried out', () => {
  const random = randomFrom(71)
  const between = (least: number, most: number) => Math.round(least + random() * (most - least))
  const offered = new Map<string, number>()
  for (let each = 0; each < cases(24); each++) {
    const turn = random() < 0.5 ? 'left' : 'right'
    const elements = [
      straight(between(2500, 4000)),
      arc(between(900, 1800), between(200, 330), turn),
      straight(between(2500, 4500)),
    ]
    const at = between(400, 1500)
    const isKeptOut = each % 3 === 0
    const breaks = (isKeptOut ? [at] : [at, at + between(20, 140)]).map((mm) => ({ at: mm, kind: 'insulated' }))
    const keepOut = isKeptOut ? [{ from: at - between(50, 400), to: at + between(300, 700) }] : []
    const plan = sent([{ elements, breaks, keepOut }], {
      ...LOW_BRIDGE,
      ...(each % 2 === 0 && { joints: { stagger: between(800, 1100) } }),
    })
    for (const rule of ['self-crossing', 'piece-too-short', 'joint-in-keep-out', 'joints-too-near'])
      offered.set(rule, (offered.get(rule) ?? 0) + remediesCarriedOut(plan, rule).length)
  }
  for (const [rule, count] of offered) expect([rule, count > 0]).toEqual([rule, true])
}, 300_000)
