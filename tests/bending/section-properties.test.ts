import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  massPerMetreKg,
  rectangleFaults,
  rectanglesOf,
  sectionProperties,
} from '../../src/bending/section-properties.ts'
import { SECTIONS } from '../../src/catalogue/sections.ts'
import { anyRectangles } from './rails.ts'

describe('section properties', () => {
  it('of foot 6 × 1, web 1 × 4, head 3 × 2 (by hand)', () => {
    const section = sectionProperties([
      { widthMm: 6, heightMm: 1 },
      { widthMm: 1, heightMm: 4 },
      { widthMm: 3, heightMm: 2 },
    ])
    expect(section.heightMm).toBe(7)
    expect(section.areaMm2).toBe(6 + 4 + 6)
    // 216/12 + 4/12 + 54/12
    expect(section.lateralSecondMomentMm4).toBeCloseTo(18 + 1 / 3 + 4.5, 12)
    // 36/4 + 4/4 + 18/4
    expect(section.plasticModulusMm3).toBe(9 + 1 + 4.5)
    expect(section.extremeFibreMm).toBe(3)
    expect(section.elasticModulusMm3).toBeCloseTo((22 + 5 / 6) / 3, 12)
    expect(section.shapeFactor).toBeCloseTo((14.5 * 3) / (22 + 5 / 6), 12)
  })

  it('do not ask which rectangle stands on which, nor whether one is given in two layers', () => {
    fc.assert(
      fc.property(anyRectangles, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (rectangles, share) => {
        const [first, ...rest] = rectangles
        const layered = [
          ...rest,
          { widthMm: first!.widthMm, heightMm: share * first!.heightMm },
          { widthMm: first!.widthMm, heightMm: (1 - share) * first!.heightMm },
        ]
        const [a, b] = [sectionProperties(rectangles), sectionProperties(layered)]
        for (const name of ['areaMm2', 'lateralSecondMomentMm4', 'plasticModulusMm3', 'shapeFactor'] as const)
          expect(b[name] / a[name]).toBeCloseTo(1, 12)
      }),
    )
  })

  it('give a shape factor of 1.5 to one rectangle and never less to a stack (closed form)', () => {
    expect(sectionProperties([{ widthMm: 0.4, heightMm: 90 }]).shapeFactor).toBeCloseTo(1.5, 14)
    fc.assert(
      fc.property(anyRectangles, (rectangles) => {
        expect(sectionProperties(rectangles).shapeFactor).toBeGreaterThan(1.5 - 1e-12)
      }),
    )
  })

  it('make foot, web and head of six caliper numbers, which add up to the height', () => {
    const rectangles = rectanglesOf({
      heightMm: 8,
      headWidthMm: 3.5,
      footWidthMm: 7,
      webThicknessMm: 0.9,
      headDepthMm: 2.25,
      footDepthMm: 1.25,
    })
    expect(rectangles).toEqual([
      { widthMm: 7, heightMm: 1.25 },
      { widthMm: 0.9, heightMm: 4.5 },
      { widthMm: 3.5, heightMm: 2.25 },
    ])
  })

  it('exist for every section of the catalogue, whose feet make shape factors between 1.75 and 2', () => {
    expect(SECTIONS.length).toBeGreaterThan(0)
    for (const row of SECTIONS) {
      const section = sectionProperties(rectanglesOf(row))
      expect(section.heightMm).toBeCloseTo(row.heightMm, 12)
      expect(section.extremeFibreMm).toBe(row.footWidthMm / 2)
      expect(section.shapeFactor).toBeGreaterThan(1.75)
      expect(section.shapeFactor).toBeLessThan(2)
    }
  })

  it('weigh a metre of 10 × 10 mm steel at 0.787 kg (by hand)', () => {
    expect(massPerMetreKg(sectionProperties([{ widthMm: 10, heightMm: 10 }]), 7870)).toBeCloseTo(0.787, 12)
  })
})

describe('rectangles that are none', () => {
  it('are refused side by side, each at its place', () => {
    const faults = rectangleFaults([
      { widthMm: 6, heightMm: 0 },
      { widthMm: 1, heightMm: 4 },
      { widthMm: -3, heightMm: Number.NaN },
    ])
    expect(faults.map(({ path, code }) => [path.join('/'), code])).toEqual([
      ['rectangles/0/height', 'out-of-range'],
      ['rectangles/2/width', 'out-of-range'],
      ['rectangles/2/height', 'out-of-range'],
    ])
  })

  it('are refused when there is not one, and let pass when sound', () => {
    expect(rectangleFaults([]).map(({ path }) => path)).toEqual([['rectangles']])
    expect(rectangleFaults([{ widthMm: 1, heightMm: 2 }])).toEqual([])
  })
})
