import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cases } from '../cases.ts'
import { ARC, appWithoutStore, asking, example, placesIn, planWith, problemIn, TANGENT } from './asking.ts'

const { ask } = asking(appWithoutStore())

type Json = null | boolean | number | string | Json[] | { [key: string]: Json }

/** Of the cases in `npm test`: enough that some bodies stay sound. */
const SHARE = 1 / 2

const TEST_PASSES: Json[] = [
  { depth: 1.5, chord: 500, ordinate: 14 },
  { turns: 1.5, chord: '20 in', ordinate: 40 },
]

const BENDER = {
  work: 'loose-rail',
  span: 100,
  outerRollerRadius: '0.5 in',
  bearsOn: 'foot',
  mode: 'rolled',
  maxPerPass: 1,
  screwPitch: 1.5,
  ends: 'trim',
  fixedEnd: 'start',
  limits: { overbendRatio: 2, grip: 300, handForceN: 90, jointFlat: 2 },
}

const WAY = {
  supplies: {
    currency: 'EUR',
    taxRatePct: 19,
    sticks: [{ length: '6 ft', price: '14.50', packSize: 1, onHand: 4, buyable: true }],
    joiners: { packSize: 10, pricePerPack: '9.00', onHand: 6, sparePct: 5, massEachG: 2.5 },
    ties: {
      perLength: { count: 24, length: '39 in' },
      strip: { ties: 12, price: '3.20', packSize: 2, onHand: 1, sparePct: 5, massEachG: 85 },
      fastenersPerTie: 2,
      jointTies: true,
    },
    fasteners: { packSize: 500, pricePerPack: '12.00', onHand: 0 },
    panels: [
      { length: '2 ft', ties: 13, joiners: 2, price: '19.00', packSize: 4, onHand: 3, buyable: true, massEachG: 900 },
      { name: 'wide', diameter: '20 ft', angle: 22.5, price: '24.00', onHand: 1 },
      { radius: 1500, angle: 30, ties: 16, price: '24.00', buyable: false },
    ],
    readyMade: 'always',
    kerf: 1,
    minimumPiece: '6 in',
  },
  roadbed: {
    kind: 'raised',
    crownWidth: 130,
    depthUnderTie: '1-1/2 in',
    shoulderSlope: 1.25,
    filledTo: 'tie-top',
    tie: { length: 95, width: 18, height: 10 },
    shrinkagePct: 12,
    densityKgM3: 1600,
    bag: { massKg: 25, price: 4.3, onHand: 2, sparePct: 0 },
  },
  power: {
    currentA: 4,
    supplyVoltageV: 20,
    maximumDropPct: 5,
    jointResistanceOhm: 0.004,
    feeder: { awg: 14, length: '10 ft', pricePerM: '0.62', onHand: '20 m', sparePct: 10 },
  },
  extras: [
    { item: 'Fabric', per: 'm', quantity: 1.1, price: '0.95', packSize: 5, onHand: 1, sparePct: 5, massEachG: 30 },
  ],
}

/** Everything a plan may hold, so that a change can meet any of it. */
const FULL_PLAN = {
  ...(example('quarter-loop') as Record<string, Json>),
  ...planWith({
    rail: {
      section: { height: 6.4, headWidth: 2.9, footWidth: 5.7, webThickness: 0.8, headDepth: 1.9 },
      material: 'brass',
      temper: 'half-hard',
      calibration: [{ formedRadius: 700, restingRadius: '8 ft' }, ...TEST_PASSES],
    },
    bender: BENDER,
    resolution: 0.5,
    climate: { laying: '60 F', coldest: -10, hottest: '35 C', sunAllowance: '36 F' },
    joints: { kind: 'clamped', held: false, gapLimit: 2.5, expansionJointLimit: '3/8 in', insulatorThickness: 1 },
    earthworks: {
      formationWidth: '1 ft',
      formationDepth: 70,
      cutSlope: 1,
      fillSlope: 2,
      swellPct: 20,
      barrowL: 60,
    },
    ...WAY,
    pegs: [
      { name: 'A', x: 0, y: '-2 m', elevation: 5 },
      { name: 'B', x: '3 m', y: -2000 },
      { name: 'C', first: 'A', firstDistance: '9 ft', second: 'B', secondDistance: 2500, side: 'left' },
    ],
    tracks: [
      {
        name: 'a',
        label: 'x',
        start: { x: 0, y: '1 ft', heading: 30, elevation: 0 },
        closed: false,
        joinsExisting: { start: true, end: { section: '332', material: 'aluminum', radius: '9 ft', turn: 'left' } },
        gradeLine: [
          { at: 0, elevation: 0 },
          { at: '2 m', elevation: '1 in' },
        ],
        ground: [
          { at: 0, elevation: 40 },
          { at: '1 m', elevation: '-2 in' },
        ],
        breaks: [
          { at: 0, kind: 'insulated' },
          { at: '1 m', kind: 'expansion-joint' },
        ],
        elements: [
          TANGENT,
          { kind: 'easement', length: '2 ft' },
          ARC,
          { kind: 'arc', radius: 3000, length: 500, turn: 'right' },
        ],
      },
      { name: 'b', closed: true, elements: [ARC] },
      { name: 'c', state: 'lifted', elements: [TANGENT] },
    ],
  }),
} as unknown as Json

/** Every place of a JSON value, its root first. */
function placesOf(value: Json, at: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [at]
  const entries = Array.isArray(value) ? [...value.entries()] : Object.entries(value)
  return [at, ...entries.flatMap(([key, inner]) => placesOf(inner, [...at, key]))]
}

const OWN_METAL = {
  youngsModulusGpa: 110,
  yieldMpa: 345,
  hardening: { model: 'ramberg-osgood', n: 12 },
  elongationPct: 10,
  densityKgM3: 8500,
  expansionPerK: 19e-6,
  resistivityOhmM: 6e-8,
}
const OWN_SECTION = {
  rectangles: [
    { width: 5.7, height: 1 },
    { width: 0.8, height: 3.5 },
    { width: 2.9, height: 1.9 },
  ],
}

/** A sound body for every address that works something out. */
const BODIES: readonly [path: string, body: Json][] = [
  ['/v1/estimates', FULL_PLAN],
  [
    '/v1/bends',
    {
      ...(example('bend-in-rollers') as Record<string, Json>),
      rail: { section: OWN_SECTION, material: OWN_METAL, calibration: [{ formedRadius: 700, restingRadius: 2400 }] },
      gauge: 45,
      chords: [300, '20 in'],
      angle: 60,
      resolution: 0.5,
    },
  ],
  [
    '/v1/bend-calibrations',
    {
      rail: { section: '250', material: 'brass', temper: 'annealed', calibration: [...TEST_PASSES] },
      bender: BENDER,
      resolution: '0.5 mm',
    },
  ],
  [
    '/v1/bend-checks',
    {
      ...(example('check-laid-curve') as Record<string, Json>),
      spacing: 250,
      tolerancePct: 5,
      fixed: [0, 6],
      maximumThrow: 40,
    },
  ],
  ['/v1/bend-checks', example('check-at-the-bench') as Json],
  ['/v1/setting-outs', { plan: FULL_PLAN, interval: '20 in' }],
  ['/v1/figures', example('passing-loop') as Json],
  ['/v1/figures', example('yard-of-four-tracks') as Json],
  ['/v1/fits', example('connection-to-fit') as Json],
  ['/v1/moves', example('siding-to-move') as Json],
  ['/v1/surveys', { ...(example('garden-survey') as Record<string, Json>), tapeError: '1/2 in', levelError: 3 }],
  [
    '/v1/comparisons',
    {
      plan: FULL_PLAN,
      materials: [
        { material: 'brass' },
        {
          material: 'aluminum',
          temper: '6063-t6',
          sticks: [{ length: '6 ft', price: 9.6, onHand: 2 }, { length: 900 }],
        },
        { material: OWN_METAL },
      ],
    },
  ],
]

const odd: fc.Arbitrary<Json> = fc.oneof(
  fc.jsonValue({ maxDepth: 2 }) as fc.Arbitrary<Json>,
  fc.constantFrom<Json>(
    0,
    -0,
    -1,
    1e308,
    5e-324,
    1e7,
    0.1,
    '',
    ' ',
    '0',
    '1 ft',
    '-1 ft',
    '1/0 in',
    '9\' 9"',
    '1e9 m',
    '250',
    'brass',
    'arc',
    'left',
    true,
    null,
  ),
  fc.double().map((n) => (Number.isFinite(n) ? n : 0)),
  fc.string({ unit: 'binary', maxLength: 80 }),
)

type Change = { at: (string | number)[] } & (
  | { do: 'replace'; value: Json }
  | { do: 'drop' }
  | { do: 'add'; key: string; value: Json }
)

function changesTo(body: Json): fc.Arbitrary<Change[]> {
  const at = fc.constantFrom(...placesOf(body).slice(1))
  const key = fc.oneof(
    fc.string({ maxLength: 12 }),
    fc.constantFrom('__proto__', 'constructor', 'toString', 'toJSON', 'length', 'lenght', 'a/b', '~1', ''),
  )
  const change: fc.Arbitrary<Change> = fc.oneof(
    fc.record({ do: fc.constant('replace' as const), at, value: odd }),
    fc.record({ do: fc.constant('drop' as const), at }),
    fc.record({ do: fc.constant('add' as const), at, key, value: odd }),
  )
  return fc.array(change, { minLength: 1, maxLength: 4 })
}

/** One change after the other; a place that an earlier one has taken away is passed over. */
function changed(plan: Json, changes: readonly Change[]): Json {
  const copy = structuredClone(plan)
  for (const step of changes) {
    let parent: Json | undefined = copy
    for (const key of step.at.slice(0, -1))
      parent =
        typeof parent === 'object' && parent !== null ? (parent as Record<string | number, Json>)[key] : undefined
    if (typeof parent !== 'object' || parent === null) continue
    if (Array.isArray(parent) && typeof step.at.at(-1) !== 'number') continue
    const holder = parent as Record<string | number, Json>
    const last = step.at.at(-1)!
    if (step.do === 'replace') holder[last] = step.value
    else if (step.do === 'drop' && Array.isArray(parent)) parent.splice(Number(last), 1)
    else if (step.do === 'drop') delete holder[last]
    else if (!Array.isArray(parent))
      Object.defineProperty(parent, step.key, {
        value: step.value,
        enumerable: true,
        configurable: true,
        writable: true,
      })
  }
  return copy
}

/** Whether a JSON Pointer leads to something, or to where something should be: its parent is there. */
function leadsSomewhere(body: Json, pointer: string): boolean {
  if (pointer === '') return true
  const tokens = pointer
    .split('/')
    .slice(1)
    .map((token) => token.replaceAll('~1', '/').replaceAll('~0', '~'))
  let value: Json | undefined = body
  for (const token of tokens.slice(0, -1))
    value =
      typeof value === 'object' && value !== null && Object.hasOwn(value, token)
        ? (value as Record<string, Json>)[token]
        : undefined
  return typeof value === 'object' && value !== null
}

function holdsNoGaps(value: Json, path = ''): void {
  if (/\/forming\/|\/calibration$|\/easements\/|ChordMm$|radiusErrorPct$/.test(path)) return
  if (/^\/joints\/\d+\/gap|^\/expansion($|\/)/.test(path)) return
  const nullable =
    /(title|label|slopeMm|pegOut|temper|closure|cost|costLowerBound|radiusMm|startRadiusMm|endRadiusMm|turn|lengthMm|unitPrice|amount|track|element|remedy|measured|limit|unit|massKg|taxRatePct|tax|gross|roadbed|bags|power|feeder|feeders|spacingMm|widestSpacingMm|endMm|worstDropV|wireMm|readyMade|looseCost|angleDeg|takes|takesWhenDry|holding|drawnW|averagedPct|averagedEffectivePct|averagedOverMm)$/
  if (value === null) expect(path).toMatch(nullable)
  else if (typeof value === 'object')
    for (const [key, inner] of Object.entries(value)) holdsNoGaps(inner as Json, `${path}/${key}`)
}

describe('a sound body with some changes at random', () => {
  test.each(BODIES)(
    'to %s is answered without gaps, or refused at places that are there',
    async (path, sound) => {
      const isPlan = path === '/v1/estimates'
      const holdsPlan =
        isPlan ||
        path === '/v1/setting-outs' ||
        path === '/v1/fits' ||
        path === '/v1/moves' ||
        path === '/v1/comparisons'
      expect((await ask(path, { method: 'POST', json: sound })).status).toBe(200)
      let refusals = 0
      let answers = 0
      await fc.assert(
        fc.asyncProperty(changesTo(sound), async (changes) => {
          const body = changed(sound, changes)
          const answer = await ask(path, { method: 'POST', json: body })
          expect([200, 422]).toContain(answer.status)
          if (answer.status === 200) {
            answers += 1
            if (isPlan) holdsNoGaps(JSON.parse(answer.text) as Json)
            return
          }
          refusals += 1
          const places = placesIn(answer)
          expect(places.length).toBeGreaterThan(0)
          for (const place of places)
            expect([place, leadsSomewhere(JSON.parse(JSON.stringify(body)) as Json, place)]).toEqual([place, true])
          const said = problemIn(answer).errors.map((error) => JSON.stringify(error))
          expect(new Set(said).size).toBe(said.length)
        }),
        // Test passes of a roller bender take some milliseconds to work out.
        { numRuns: cases(isPlan ? 800 : holdsPlan ? 400 : 600, SHARE) },
      )
      expect(refusals).toBeGreaterThan(cases(100, SHARE))
      expect(answers).toBeGreaterThan(cases(8, SHARE))
    },
    120_000,
  )

  test('any bytes at all are answered with 200, 400 or 422', async () => {
    const text = JSON.stringify(FULL_PLAN)
    await fc.assert(
      fc.asyncProperty(fc.nat(text.length), fc.nat(20), fc.uint8Array({ maxLength: 8 }), async (at, cut, bytes) => {
        const whole = Buffer.concat([Buffer.from(text.slice(0, at)), bytes, Buffer.from(text.slice(at + cut))])
        const headers = { 'Content-Type': 'application/json' }
        const answer = await ask('/v1/estimates', { method: 'POST', headers, body: new Uint8Array(whole) })
        expect([200, 400, 422]).toContain(answer.status)
        if (answer.status === 400)
          expect(problemIn(answer).errors[0]!.detail).toMatch(/line \d+, column \d+|UTF-8|empty/)
      }),
      { numRuns: cases(500, SHARE) },
    )
  }, 60_000)
})
