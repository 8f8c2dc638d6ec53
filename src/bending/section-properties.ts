import type { RailSection } from '../catalogue/types.ts'
import type { Fault } from '../measure/fault.ts'

/** One layer of a rail: `widthMm` across the rail, `heightMm` up it. */
interface Rectangle {
  readonly widthMm: number
  readonly heightMm: number
}

/** A rail as a stack of rectangles, foot first, head last, each centred on the rail's vertical axis. */
export type RectangleStack = readonly Rectangle[]

/** What sideways bending needs of a section. All moments are about the vertical axis. */
export interface SectionProperties {
  readonly rectangles: RectangleStack
  readonly heightMm: number
  readonly areaMm2: number
  readonly lateralSecondMomentMm4: number
  readonly elasticModulusMm3: number
  readonly plasticModulusMm3: number
  readonly shapeFactor: number
  /** Distance of the outermost fibre from the vertical axis. */
  readonly extremeFibreMm: number
}

/**
 * Foot, web and head of a rail, from its six caliper numbers. The web is the rest of the height between head and foot.
 */
export function rectanglesOf(
  section: Pick<
    RailSection,
    'heightMm' | 'headWidthMm' | 'footWidthMm' | 'webThicknessMm' | 'headDepthMm' | 'footDepthMm'
  >,
): RectangleStack {
  return [
    { widthMm: section.footWidthMm, heightMm: section.footDepthMm },
    { widthMm: section.webThicknessMm, heightMm: section.heightMm - section.footDepthMm - section.headDepthMm },
    { widthMm: section.headWidthMm, heightMm: section.headDepthMm },
  ]
}

/** A stack needs a rectangle, and every rectangle a width and a height. Paths are relative to the section. */
export function rectangleFaults(rectangles: RectangleStack): Fault[] {
  if (rectangles.length === 0)
    return [
      {
        path: ['rectangles'],
        code: 'out-of-range',
        detail: 'the section has no rectangles',
        hint: 'give them foot first, head last',
      },
    ]
  return rectangles.flatMap((rectangle, index) =>
    (['width', 'height'] as const)
      .filter((side) => !(rectangle[`${side}Mm`] > 0 && Number.isFinite(rectangle[`${side}Mm`])))
      .map((side) => ({
        path: ['rectangles', index, side],
        code: 'out-of-range',
        detail: `the ${side} of a rectangle must be over zero`,
      })),
  )
}

/**
 * Properties of a stack of rectangles bent about its vertical axis, each w wide and h high:
 *
 * A = Σ w·h, I = Σ h·w³/12, Zpl = Σ h·w²/4, c = max w/2, Zel = I/c, shape factor = Zpl/Zel
 *
 * mm throughout. Range: at least one rectangle, all sides > 0 (see `rectangleFaults`). The rectangles share their
 * centre line, so none needs a parallel-axis term. Closed forms; the values of the 8.43 mm section are derived
 * (tests/published/bending-table.test.ts), a plain rectangle's by hand (tests/bending/section-properties.test.ts).
 */
export function sectionProperties(rectangles: RectangleStack): SectionProperties {
  let heightMm = 0
  let areaMm2 = 0
  let lateralSecondMomentMm4 = 0
  let plasticModulusMm3 = 0
  let extremeFibreMm = 0
  for (const { widthMm: w, heightMm: h } of rectangles) {
    heightMm += h
    areaMm2 += w * h
    lateralSecondMomentMm4 += (h * w ** 3) / 12
    plasticModulusMm3 += (h * w ** 2) / 4
    extremeFibreMm = Math.max(extremeFibreMm, w / 2)
  }
  const elasticModulusMm3 = lateralSecondMomentMm4 / extremeFibreMm
  return {
    rectangles,
    heightMm,
    areaMm2,
    lateralSecondMomentMm4,
    elasticModulusMm3,
    plasticModulusMm3,
    shapeFactor: plasticModulusMm3 / elasticModulusMm3,
    extremeFibreMm,
  }
}

const M2_PER_MM2 = 1e-6

/**
 * Mass of one metre of rail, kg: area × density. Checked against derived values in
 * tests/published/bending-table.test.ts.
 */
export function massPerMetreKg(section: SectionProperties, densityKgM3: number): number {
  return section.areaMm2 * M2_PER_MM2 * densityKgM3
}
