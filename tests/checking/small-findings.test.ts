import { describe, expect, it } from 'vitest'
import type { ChordLeftOut } from '../../src/bending/bends.ts'
import { chordTooLong } from '../../src/checking/chord-too-long.ts'
import { pieceTooShort } from '../../src/checking/piece-too-short.ts'
import { dropNotKept, resistivityUnknown } from '../../src/checking/power.ts'

describe('chords that do not fit', () => {
  const leftOut = (element: number, rail: 'outer' | 'inner', chordMm: number): ChordLeftOut =>
    ({ element, rail, chordMm, bendLengthMm: 280 }) as ChordLeftOut

  it('are one note for each curve and chord, in order of both', () => {
    const findings = chordTooLong('main', [
      leftOut(5, 'outer', 500),
      leftOut(2, 'outer', 500),
      leftOut(2, 'outer', 300),
      leftOut(2, 'inner', 500),
    ])
    expect(
      findings.map(({ rule, severity, track, element, measured, limit, unit }) => [
        rule,
        severity,
        track,
        element,
        measured,
        limit,
        unit,
      ]),
    ).toEqual([
      ['chord-too-long', 'note', 'main', 2, 300, 280, 'mm'],
      ['chord-too-long', 'note', 'main', 2, 500, 280, 'mm'],
      ['chord-too-long', 'note', 'main', 5, 500, 280, 'mm'],
    ])
    expect(findings[0]!.message).toContain('A chord of 300 mm does not fit the outer bend (280 mm long)')
    expect(findings[1]!.message).toContain('does not fit these bends')
    expect(chordTooLong('main', [])).toEqual([])
  })
})

it('a piece that is too short is told with its rail and both lengths', () => {
  const finding = pieceTooShort('main', 'left', 120.04, 150)
  expect(finding).toMatchObject({ rule: 'piece-too-short', severity: 'warn', track: 'main', element: null })
  expect(finding).toMatchObject({ measured: 120.04, limit: 150, unit: 'mm' })
  expect(finding.message).toContain('The left rail has a piece of 120 mm; pieces under 150 mm')
})

describe('power', () => {
  it('a metal that nobody knows the resistivity of is told of for the whole plan', () => {
    expect(resistivityUnknown()).toMatchObject({
      rule: 'resistivity-unknown',
      severity: 'warn',
      track: null,
      element: null,
      measured: null,
      limit: null,
      unit: null,
    })
  })

  it('a drop that cannot be kept names the limit, the wire and the joints', () => {
    expect(dropNotKept(2, 1.5)).toMatchObject({
      rule: 'drop-not-kept',
      severity: 'warn',
      track: null,
      element: null,
      measured: null,
      limit: 1.5,
      unit: 'V',
      message: expect.stringContaining(
        '1.50 V would take more than 1000 feeders; the drop in one feeder alone is 2.00 V',
      ),
      cure: expect.stringMatching(/thicker wire.*bond the joints/),
    })
  })
})
