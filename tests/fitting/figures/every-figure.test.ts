import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cases } from '../../cases.ts'
import { type Built, built, gapOf, placesOf, refusal } from './built.ts'

/** Kinds of both hands and a wye, of one number and form. */
function kinds(number: number, form: string, gauge: number) {
  const size = form === 'measured' ? { measured: measured(number, gauge) } : { number, form }
  return [
    { id: 'l', hand: 'left', ...size },
    { id: 'r', hand: 'right', ...size },
    { id: 'w', hand: 'wye', number },
  ]
}

/** A turnout as it might be measured: a little longer than its lead, its leg half a spacing aside at most. */
function measured(number: number, gauge: number) {
  const angle = 2 * Math.atan(1 / (2 * number))
  const length = 2 * gauge * number + gauge
  return { length, divergingAngle: (angle * 180) / Math.PI, divergingOffset: (length / 2) * Math.tan(angle) * 0.95 }
}

const size = fc.record({
  number: fc.double({ min: 3.5, max: 11, noNaN: true }),
  form: fc.constantFrom('straight-frog', 'curved-frog', 'measured'),
  gauge: fc.constantFrom(32, 45, 89),
  side: fc.constantFrom('left', 'right'),
  /** In gauges beyond what the turnouts take up. */
  wider: fc.double({ min: 0.2, max: 6, noNaN: true }),
  clear: fc.double({ min: 4000, max: 20_000, noNaN: true }),
  radius: fc.double({ min: 900, max: 4000, noNaN: true }),
  start: fc.record({
    x: fc.double({ min: -1e4, max: 1e4, noNaN: true }),
    y: fc.double({ min: -1e4, max: 1e4, noNaN: true }),
    heading: fc.double({ min: -180, max: 180, noNaN: true }),
  }),
})
type Size = typeof size extends fc.Arbitrary<infer T> ? T : never

function request(figure: string, { number, form, gauge, side, wider, clear, radius, start }: Size): Asked {
  const spacing = gauge * (2 + wider)
  const common = {
    figure,
    gauge,
    side,
    start,
    turnoutTypes: kinds(number, form, gauge),
    standards: { minimumRadius: 500 },
  }
  switch (figure) {
    case 'crossover':
      return { ...common, spacing }
    case 'ladder':
      return { ...common, spacing, clear, count: 4, radius }
    case 'double-ended ladder':
      return { ...common, figure: 'ladder', doubleEnded: true, spacing, clear, count: 4, radius }
    case 'passing-loop':
      return { ...common, spacing, clear, radius }
    case 'reverse-loop':
    case 'wye':
      return { ...common, radius, ...(number > 6 && { wye: 'w' }) }
    default:
      return { ...common, radius, spacing }
  }
}

interface Asked {
  readonly [field: string]: unknown
}

/** With what the refusals tell to use instead, until there is nothing to refuse: what they tell can be built. */
function buildable(asked: Asked): Asked {
  let at = asked
  for (let round = 0; round < 6; round++) {
    const faults = refusal(at)
    if (faults.length === 0) return at
    for (const [field, code, hint] of faults) {
      const told = /use a (?:spacing|radius|clear length) of ([\d.]+) mm or more/.exec(hint)
      if (!told) throw new Error(`${field} ${code}: ${hint}`)
      at = { ...at, [field]: Number(told[1]) }
    }
  }
  throw new Error(`never built: ${JSON.stringify([at, refusal(at)])}`)
}

const FIGURES = ['crossover', 'ladder', 'double-ended ladder', 'passing-loop', 'reverse-loop', 'wye', 'junction']

/** Both lists of places are those of one figure and of its mirror image in the x axis. */
function isMirrored(one: ReturnType<typeof placesOf>, other: ReturnType<typeof placesOf>): boolean {
  return (
    one.length === other.length &&
    one.every(({ xMm, yMm, headingDeg }, at) => {
      const there = other[at]!
      const turn = (headingDeg + there.headingDeg) % 360
      return (
        Math.abs(xMm - there.xMm) < 1e-9 * (1 + Math.abs(xMm)) &&
        Math.abs(yMm + there.yMm) < 1e-9 * (1 + Math.abs(yMm) + Math.abs(xMm)) &&
        Math.min(Math.abs(turn), 360 - Math.abs(turn)) < 1e-8
      )
    })
  )
}

describe.each(FIGURES)('a %s of random turnouts, spacings, hands and places', (figure) => {
  test('is built, or refused with a size that can be; it closes in the estimate of its plan to a millionth of a millimetre, and agrees with its findings', () => {
    fc.assert(
      fc.property(size, (given) => {
        const made: Built = built(buildable(request(figure, given)))
        expect(gapOf(made)).toBeLessThan(1e-6)
        const said = ({ rule, severity, track, element, measured }: Built['answer']['findings'][number]) => [
          rule,
          severity,
          track,
          element,
          measured,
        ]
        expect(made.answer.findings.map(said)).toEqual(made.estimate.findings.map(said))
      }),
      { numRuns: cases(180) },
    )
  })

  test('on the other side is its mirror image', () => {
    fc.assert(
      fc.property(size, ({ start: _, ...given }) => {
        const asked = buildable(request(figure, { ...given, start: { x: 0, y: 0, heading: 0 } }))
        const [left, right] = ['left', 'right'].map((side) => placesOf(built({ ...asked, side })))
        expect(isMirrored(left!, right!)).toBe(true)
      }),
      { numRuns: cases(60) },
    )
  })
})

test('of two that are not alike, the second is no mirror image of the first', () => {
  const given: Omit<Size, 'side'> = {
    number: 6,
    form: 'straight-frog',
    gauge: 45,
    wider: 1,
    clear: 5000,
    radius: 2000,
    start: { x: 0, y: 0, heading: 0 },
  }
  const [left, right] = (['left', 'right'] as const).map((side) =>
    placesOf(built(request('passing-loop', { ...given, side }))),
  )
  expect(isMirrored(left!, right!)).toBe(true)
  expect(isMirrored(left!, left!)).toBe(false)
  expect(
    isMirrored(
      left!,
      right!.map((place) => ({ ...place, xMm: place.xMm + 1e-3 })),
    ),
  ).toBe(false)
})
