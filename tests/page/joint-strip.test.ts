import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { jointStrip, type TrackUnrolled } from '../../src/page/drawing/joint-strip.ts'
import { jointStrips, unrolled } from '../../src/page/sheets/garden/joint-strips.ts'
import { jointTables } from '../../src/page/sheets/garden/joint-tables.ts'
import { cutList } from '../../src/page/sheets/saw/cut-list.ts'
import { pieceMarks } from '../../src/page/sheets/saw/piece-marks.ts'
import { example, planWith, TANGENT, trackOf } from '../api/asking.ts'
import { contextOf } from './all-sheets.ts'
import { nestingFault, tagsOf, textOf } from './markup.ts'
import { worked } from './worked.ts'

const FOOT = 304.8

/** Each strip of a track by itself. */
function rowsOf(markup: string): string[] {
  return markup.match(/<svg class="plan strip"[\s\S]*?<\/svg>/g) ?? []
}

/** A track with one joiner a rail, and little else. */
const plain: TrackUnrolled = {
  name: 'main',
  lengthMm: 3000,
  closed: false,
  rails: {
    left: {
      joints: [{ stationMm: 1500, kind: 'joiner' }],
      pieces: [
        { fromMm: 0, toMm: 1500, mark: 'L1' },
        { fromMm: 1500, toMm: 3000, mark: 'L2' },
      ],
    },
    right: {
      joints: [{ stationMm: 1000, kind: 'joiner' }],
      pieces: [
        { fromMm: 0, toMm: 1000, mark: 'R1' },
        { fromMm: 1000, toMm: 3000, mark: 'R2' },
      ],
    },
  },
  breaks: [],
  keepOut: [],
  readyMade: [],
  stickMm: 2000,
}

/** Where strokes of joints stand, in drawing units, by the height of their rail. */
function strokesIn(row: string): { x: number; y: number }[] {
  return [...row.matchAll(/class="joint" d="M([\d.]+) ([\d.]+)v24"/g)].map(([, x, y]) => ({
    x: Number(x),
    y: Number(y),
  }))
}

describe('a track unrolled', () => {
  test('joints stand to scale on their own rail, the left one above', () => {
    const [row, ...more] = rowsOf(jointStrip(plain, 's', 'metric').toString())
    expect(more).toEqual([])
    const rail = tagsOf(row!).find(({ attributes }) => attributes.get('class') === 'unrolled')!.attributes
    const [x, width] = [Number(rail.get('x')), Number(rail.get('width'))]
    const strokes = strokesIn(row!)
    // By hand: joints at a half and at a third of the track.
    expect(strokes.map((stroke) => (stroke.x - x) / width)).toEqual([
      expect.closeTo(1 / 2, 3),
      expect.closeTo(1 / 3, 3),
    ])
    expect(strokes[0]!.y).toBeLessThan(strokes[1]!.y)
    for (const mark of ['L1', 'L2', 'R1', 'R2']) expect(textOf(row!)).toContain(mark)
    expect(textOf(row!)).toContain(
      'main from 0.00 m to 3.00 m; left rail: joints at 1.50 m; right rail: joints at 1.00 m.',
    )
  })

  test('goes on in further rows where it is long; a joint where rows meet stands in both', () => {
    const long = { ...plain, stickMm: 500 }
    const rows = rowsOf(jointStrip(long, 's', 'metric').toString())
    expect(rows).toHaveLength(2)
    expect(rows.map((row) => strokesIn(row).length)).toEqual([2, 1])
    expect(
      rowsOf(jointStrip({ ...plain, lengthMm: 1e6, stickMm: 10 }, 's', 'both').toString()).length,
    ).toBeLessThanOrEqual(60)
  })

  test('what stands where a loop closes is met at both ends', () => {
    const loop: TrackUnrolled = {
      ...plain,
      closed: true,
      breaks: [{ at: 0, kind: 'insulated' }],
      rails: { ...plain.rails, left: { ...plain.rails.left, joints: [{ stationMm: 0, kind: 'insulated' }] } },
    }
    const markup = jointStrip(loop, 's', 'metric').toString()
    expect(markup.match(/class="joint open"/g)).toHaveLength(2)
    expect(/class="break" d="([^"]*)"/.exec(markup)![1]!.match(/M/g)).toHaveLength(2)
  })

  test.each([
    ['joiner', 'd="M203 19v24"'],
    ['insulated', 'class="joint open"'],
    ['turnout', 'class="joint full"'],
  ] as const)('a joint of the kind %s has a shape of its own', (kind, shape) => {
    const left = { ...plain.rails.left, joints: [{ stationMm: 1500, kind }] }
    expect(jointStrip({ ...plain, rails: { ...plain.rails, left } }, 's', 'metric').toString()).toContain(shape)
  })

  test('a stretch without joints is hatched over its length, with its reason escaped, and ends with the track', () => {
    const keepOut = [{ from: 1500, to: 9000, reason: '<b>path</b>' }]
    const markup = jointStrip({ ...plain, keepOut }, 's', 'metric').toString()
    const hatched = tagsOf(markup).find(({ attributes }) => attributes.get('class') === 'keep-out')!.attributes
    const rail = tagsOf(markup).find(({ attributes }) => attributes.get('class') === 'unrolled')!.attributes
    expect(Number(hatched.get('width')) / Number(rail.get('width'))).toBeCloseTo(1 / 2, 3)
    expect(textOf(markup)).toContain('<b>path</b>')
    expect(nestingFault(markup)).toBeNull()
  })

  test('stays inside its sheet and is well-formed, whatever the track', () => {
    const places = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 })
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        fc.double({ min: 10, max: 5000, noNaN: true }),
        places,
        places,
        fc.constantFrom('metric' as const, 'feet' as const, 'both' as const),
        (lengthMm, stickMm, shares, kept, lengthsIn) => {
          const stations = shares.map((share) => share * lengthMm).sort((a, b) => a - b)
          const joints = stations.map((stationMm) => ({ stationMm, kind: 'expansion' as const }))
          const meetings = [0, ...stations, lengthMm]
          const pieces = meetings.slice(1).map((toMm, n) => ({ fromMm: meetings[n]!, toMm, mark: `L${n + 1}` }))
          const track: TrackUnrolled = {
            ...plain,
            lengthMm,
            stickMm,
            rails: { left: { joints, pieces }, right: { joints: [], pieces: [] } },
            breaks: stations.map((at) => ({ at, kind: 'expansion-joint' })),
            keepOut: kept.map((share) => ({ from: share * lengthMm, to: lengthMm * 1.1, reason: 'a reason' })),
          }
          const markup = jointStrip(track, 's', lengthsIn).toString()
          expect(nestingFault(markup)).toBeNull()
          expect(markup).not.toMatch(/NaN|Infinity/)
          for (const { name, kind, attributes } of tagsOf(markup)) {
            if (kind === 'close' || (name !== 'rect' && name !== 'text')) continue
            const x = Number(attributes.get('x'))
            expect(x).toBeGreaterThanOrEqual(0)
            expect(x + Number(attributes.get('width') ?? 0)).toBeLessThanOrEqual(380)
          }
          const drawn = markup.match(/class="joint" d="M/g)?.length ?? 0
          expect(drawn).toBeGreaterThanOrEqual(joints.length)
        },
      ),
      { numRuns: 60 },
    )
  })
})

describe('the joints of a plan along its tracks', () => {
  test('pieces meet at joints, and are as long along the track as the cut list saws them, where it is straight', () => {
    const plan = worked(example('footbridge-line'))
    const track = unrolled(plan, 0, pieceMarks(plan.estimate))
    for (const side of ['left', 'right'] as const) {
      const { pieces, joints } = track.rails[side]
      expect(pieces[0]!.fromMm).toBe(0)
      expect(pieces.at(-1)!.toMm).toBe(track.lengthMm)
      expect(pieces.map(({ mark }) => mark)).toEqual(pieces.map((_, n) => `${side === 'left' ? 'L' : 'R'}${n + 1}`))
      // By hand: the bridge, a piece of 4 ft from 19 ft on, is all straight.
      const onBridge = { fromMm: expect.closeTo(19 * FOOT, 6), toMm: expect.closeTo(23 * FOOT, 6) }
      expect(pieces).toContainEqual(expect.objectContaining(onBridge))
      expect(joints).toHaveLength(pieces.length)
    }
  })

  test('the key names what is drawn and nothing else', () => {
    const key = (plan: unknown) => textOf(jointStrips(worked(plan), 'both').key.toString())
    const names = [
      'joiner',
      'insulated joiner',
      'turnout',
      'both rails divided',
      'no joints allowed',
      'expansion joint',
    ]
    const bridge = key(example('footbridge-line'))
    expect(names.filter((name) => bridge.includes(name))).toEqual(names.slice(0, -1))
    expect(key(planWith()).trim()).toBe('joiner')
    expect(key(planWith({ tracks: [trackOf({ ...TANGENT, length: 900 })] })).trim()).toBe('')
  })

  test('track that is there or lifted is not drawn, and has no joints to make', () => {
    const there = { ...trackOf(TANGENT), name: 'yard', state: 'existing', breaks: [{ at: '1 ft', kind: 'insulated' }] }
    const plan = worked(planWith({ tracks: [there, trackOf(TANGENT)] }))
    const { strips, key } = jointStrips(plan, 'metric')
    expect(strips.map((strip) => strip !== null)).toEqual([false, true])
    expect(textOf(key.toString())).not.toContain('divided')
    const page = jointTables(contextOf(plan, 'metric')).toString()
    expect(nestingFault(page)).toBeNull()
    expect(textOf(page)).not.toContain('yard')
    expect(textOf(cutList(worked(planWith({ tracks: [there] })), 'metric').toString())).not.toContain('Proven')
  })
})

describe('what the cut list says of the cost', () => {
  const text = (plan: unknown) => textOf(cutList(worked(plan), 'metric').toString())
  const sticks = [{ length: '5 ft', price: '10' }]

  test('that none costs less, where it is proven', () => {
    // By hand: two rails of 6 ft take three sticks of 5 ft.
    expect(text(example('footbridge-line'))).toContain('196.70 USD, in whole packs. Proven: no cut plan costs less.')
    expect(text(planWith({ supplies: { sticks } }))).toContain('You have to buy sticks for 30.00 USD')
  })

  test('without prices, that none makes one buy less', () => {
    expect(text(planWith())).toContain('Proven: no cut plan needs less rail to be bought.')
  })

  test('that rules for joints were broken, or that a cheaper plan has not been ruled out', () => {
    const rails = { ...trackOf({ ...TANGENT, length: '20 ft' }), keepOut: [{ from: 0, to: '20 ft' }] }
    expect(text(planWith({ tracks: [rails], supplies: { sticks } }))).toContain('some rules for joints are broken')
    const plan = worked(planWith({ supplies: { sticks } }))
    const open = { ...plan.estimate.cutting, costLowerBound: '20.00', provenOptimal: false }
    const unsettled = textOf(cutList({ ...plan, estimate: { ...plan.estimate, cutting: open } }, 'metric').toString())
    expect(unsettled).toContain(
      'No cut plan can cost less than 20.00 USD; it is not known whether there is a cheaper one',
    )
  })
})
