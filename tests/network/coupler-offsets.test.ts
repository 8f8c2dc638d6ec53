import { describe, expect, it } from 'vitest'
import { couplerOffsetMm } from '../../src/room/coupled-cars.ts'
import { Line } from '../../src/room/line.ts'
import { placeElements } from '../../src/track/place.ts'
import { frogAngleRad } from '../../src/track/turnout/frog.ts'
import { asSent } from '../estimate/turnout-plans.ts'
import { worked } from '../estimate/worked.ts'

const F = frogAngleRad(6, 'half-cot')
const COACH = { name: 'coach', length: '28 in', truckCentres: 500, width: 130, couplerLength: 20 }
const SHORT = { name: 'ore car', length: 300, truckCentres: 200, width: 110 }
const tangent = (length: number) => ({ kind: 'tangent', length })
const arc = (turn: string, radius = 3000) => ({ kind: 'arc', radius, angle: 20, turn })

const found = (sent: object) => worked(sent).findings.filter(({ rule }) => rule === 'reverse-curve')
const offsets = (sent: object) =>
  worked(sent).ways.flatMap(({ reverseCurves }) => reverseCurves.map(({ couplerOffsetMm: mm }) => mm))

/** Two parallel straights and a straight from the diverging leg of W1 to that of W2. */
function crossover(type: object, spacing: number, connecting: number, cars: readonly object[]) {
  const turnout = (name: string, enters: string) => ({ kind: 'turnout', name, type: 'kind', enters })
  return {
    ...asSent(),
    standards: { minimumRadius: 1000 },
    cars,
    turnoutTypes: [{ id: 'kind', hand: 'left', ...type }],
    tracks: [
      { name: 'one', elements: [tangent(2000), turnout('W1', 'points'), tangent(3000)] },
      { name: 'two', start: { y: spacing }, elements: [tangent(3000), turnout('W2', 'through'), tangent(2000)] },
      {
        name: 'over',
        start: { from: { turnout: 'W1', leg: 'diverging' } },
        end: { to: { turnout: 'W2', leg: 'diverging' } },
        elements: [tangent(connecting)],
      },
    ],
  }
}

/** No. 6 with straight frogs; its legs are so short that any spacing leaves a straight between them. */
function straightFrogs(spacing: number, cars: readonly object[]) {
  const six = { number: 6, length: 560 }
  const legMm = worked(crossover(six, spacing, 30, cars)).tracks[0]!.elements[1]!.turnout!.divergingEnd.yMm
  return crossover(six, spacing, (spacing - 2 * legMm) / Math.sin(F), cars)
}

describe('couplers on reverse curves', () => {
  it('are answered only where the plan has cars', () => {
    const sent = { ...asSent(), tracks: [{ name: 'a', elements: [arc('left'), arc('right')] }] }
    const withLimit = { ...sent, standards: { minimumTangentBetweenReverseCurves: 500 } }
    expect(Object.keys(worked(withLimit).ways[0]!.reverseCurves[0]!)).not.toContain('couplerOffsetMm')
    expect(offsets({ ...sent, cars: [SHORT] })).toEqual([expect.any(Number)])
  })

  it('a crossover of two No. 6 with straight frogs is no more than a note at 135, 150 and 165 mm', () => {
    for (const spacing of [135, 150, 165]) {
      const sent = straightFrogs(spacing, [COACH, SHORT])
      expect(found(sent).map(({ severity }) => severity)).toEqual(['note'])
      expect(found(sent)[0]!.message).toMatch(/Two coupled cars \(coach\)/)
    }
  })

  it('two turnouts with curved frogs back to back are a warning, with long cars and with short ones', () => {
    for (const cars of [[COACH], [SHORT]]) {
      const sent = crossover({ form: 'curved-frog', radius: 3000, angle: 12 }, 150, 10, cars)
      expect(found(sent).map(({ severity }) => severity)).toEqual(['warn'])
      const wide = crossover({ form: 'curved-frog', radius: '8 ft', angle: 22.5 }, 400, 5, cars)
      expect(found(wide).map(({ severity }) => severity)).toEqual(['warn'])
    }
  })

  it('are off as much as two cars put on the S are, at the place that is named', () => {
    const sent = {
      ...asSent(),
      cars: [SHORT],
      tracks: [{ name: 'a', elements: [arc('left'), tangent(100), arc('right')] }],
    }
    const line = new Line(
      placeElements(
        { xMm: 0, yMm: 0, headingRad: 0 },
        [
          { kind: 'arc', radius: 3000, angle: 20, length: null, turn: 'left', label: null },
          { kind: 'tangent', length: 100, label: null },
          { kind: 'arc', radius: 3000, angle: 20, length: null, turn: 'right', label: null },
        ],
        false,
      ),
    )
    const car = { name: 'x', lengthMm: 300, truckCentresMm: 200, widthMm: 110, couplerMm: 0 }
    let most = 0
    for (let at = 500; at < 1700; at++) most = Math.max(most, Math.abs(couplerOffsetMm(line, car, at)!))
    const [offset] = offsets(sent)
    expect(Math.abs(offset! - most)).toBeLessThan(0.01 * most)
    const place = /at (\d+) mm;/.exec(found(sent)[0]!.message)!
    const thereMm = Math.abs(couplerOffsetMm(line, car, Number(place[1]) - 50)!)
    expect(thereMm).toBeCloseTo(most, 1)
  })

  it('decide how grave it is, at the limit and just beyond it, on one track and across two', () => {
    const one = [{ name: 'a', elements: [arc('left'), tangent(100), arc('right')] }]
    const two = [
      { name: 'a', elements: [arc('left'), tangent(100)] },
      { name: 'b', start: { after: 'a' }, elements: [arc('right')] },
    ]
    for (const tracks of [one, two]) {
      const sent = (standards: object) => ({ ...asSent(), cars: [SHORT], standards, tracks })
      const [offset] = offsets(sent({}))
      const severity = (maximumCouplerOffset: number) =>
        found(sent({ maximumCouplerOffset })).map((each) => each.severity)
      expect(severity(offset! + 1e-6)).toEqual(['note'])
      expect(severity(offset! - 1e-3)).toEqual(['warn'])
    }
  })

  it('easements on both sides excuse it, however far the couplers are off (NEM 113)', () => {
    const easement = { kind: 'easement', length: 300 }
    const eased = [arc('left', 1500), easement, tangent(10), easement, arc('right', 1500)]
    const sent = {
      ...asSent(),
      cars: [COACH],
      standards: { maximumCouplerOffset: 0 },
      tracks: [{ name: 'a', elements: eased }],
    }
    expect(found(sent).map(({ severity }) => severity)).toEqual(['note'])
    expect(offsets(sent)).toEqual([])
  })

  it('on a closed track they are the same wherever it begins', () => {
    // Turns of 90° four times over: closed by symmetry.
    const quarter = [{ ...arc('left'), angle: 120 }, tangent(100), { ...arc('right'), angle: 30 }, tangent(150)]
    const round = [...quarter, ...quarter, ...quarter, ...quarter]
    const offsetsFrom = (from: number) => {
      const elements = [...round.slice(from), ...round.slice(0, from)]
      const sent = { ...asSent(), cars: [SHORT], tracks: [{ name: 'a', closed: true, elements }] }
      return offsets(sent)
        .map((mm) => Number(mm!.toFixed(6)))
        .sort()
    }
    expect(offsetsFrom(0)).toHaveLength(8)
    expect(offsetsFrom(1)).toEqual(offsetsFrom(0))
    expect(offsetsFrom(3)).toEqual(offsetsFrom(0))
  })
})
