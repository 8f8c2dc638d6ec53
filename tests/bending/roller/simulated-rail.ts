import type { Metal } from '../../../src/bending/metal.ts'
import { momentNmm } from '../../../src/bending/moment-curvature.ts'
import { axisToRollerCentreMm, type RollerBender } from '../../../src/bending/roller/roller-bender.ts'
import type { SectionProperties } from '../../../src/bending/section-properties.ts'

/*
 * Rail followed through a bender place by place, with no formula of the settings: every place of it knows the largest
 * moment it ever had. Below that it is elastic; beyond, it follows the law, which is read from a fine table.
 */

const ROWS = 4000

/**
 * Curvature by moment of rail that is bent for the first time, from a law at evenly spaced curvatures: momentNmm, or
 * another that is given.
 */
export function lawOf(
  section: SectionProperties,
  metal: Metal,
  most: number,
  law = (k: number) => momentNmm(section, metal, k),
) {
  const stiffness = metal.youngsModulusMpa * section.lateralSecondMomentMm4
  const moments = Array.from({ length: ROWS + 1 }, (_, row) => law((most * row) / ROWS))
  const curvatureAt = (moment: number) => {
    let [low, high] = [0, ROWS]
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if (moments[middle]! <= moment) low = middle
      else high = middle
    }
    const step = moments[high]! - moments[low]!
    return (most / ROWS) * (low + (step > 0 ? (moment - moments[low]!) / step : 0))
  }
  return {
    stiffness,
    mostNmm: moments[ROWS]!,
    /** Under a moment, of a place that has had a greatest one. */
    loaded: (moment: number, had: number) =>
      moment >= had ? curvatureAt(moment) : curvatureAt(had) - (had - moment) / stiffness,
    /** What a greatest moment leaves. */
    left: (had: number) => curvatureAt(had) - had / stiffness,
  }
}

type Law = ReturnType<typeof lawOf>

const STEPS = 200

/** Slope and deflection of one side of a bender under M0 at its middle, of rail by the distance from there. */
function walked(law: Law, m0: number, touchMm: number, had: (xMm: number) => number, leaving: boolean) {
  let [slope, deflection] = [0, 0]
  const stepMm = touchMm / STEPS
  for (let step = 0; step < STEPS; step++) {
    const x = (step + 0.5) * stepMm
    const moment = m0 * (1 - x / touchMm)
    const k = law.loaded(moment, leaving ? m0 : had(x))
    deflection += slope * stepMm + (k * stepMm ** 2) / 2
    slope += k * stepMm
  }
  return { slope, deflection }
}

/** Depth of one side; the point of touch moves inwards as the rail tilts. */
function sideMm(
  law: Law,
  m0: number,
  halfSpanMm: number,
  offsetMm: number,
  had: (xMm: number) => number,
  leaving: boolean,
) {
  let touchMm = halfSpanMm
  for (let round = 0; round < 3; round++) touchMm = halfSpanMm - offsetMm * walked(law, m0, touchMm, had, leaving).slope
  const { slope, deflection } = walked(law, m0, touchMm, had, leaving)
  return { depthMm: deflection + (offsetMm * slope ** 2) / 2, touchMm }
}

/** The moment at which a depth that grows with it is reached. */
function momentFor(law: Law, depthMm: number, depthAt: (m0: number) => number): number {
  let [low, high] = [0, law.mostNmm]
  for (let halving = 0; halving < 30; halving++) {
    const middle = (low + high) / 2
    if (depthAt(middle) < depthMm) low = middle
    else high = middle
  }
  return low
}

/** Curvature of rail that was rolled at these depths, one after the other. */
export function rolledThrough(
  section: SectionProperties,
  bender: RollerBender,
  law: Law,
  depthsMm: readonly number[],
): number[] {
  const [half, offset] = [bender.spanMm / 2, axisToRollerCentreMm(section, bender)]
  let had = 0
  return depthsMm.map((depthMm) => {
    const depthAt = (m0: number) =>
      (sideMm(law, m0, half, offset, () => had, false).depthMm +
        sideMm(law, m0, half, offset, () => had, true).depthMm) /
      2
    // Rail that comes in curved is pushed aside even without a moment; less than it has had does nothing more.
    had = Math.max(had, momentFor(law, depthMm, depthAt))
    return law.left(had)
  })
}

const PLACE_MM = 0.2

/** Curvature by place of a stick pressed at these depths, in one pass each, every `stepMm` along it. */
export function pressedAlong(
  section: SectionProperties,
  bender: RollerBender,
  law: Law,
  depthsMm: readonly number[],
  stepMm: number,
  presses: number,
): number[] {
  const [half, offset] = [bender.spanMm / 2, axisToRollerCentreMm(section, bender)]
  const had = new Float64Array(Math.ceil((presses * stepMm + 2 * bender.spanMm) / PLACE_MM))
  const startMm = bender.spanMm
  for (const depthMm of depthsMm) {
    for (let press = 0; press < presses; press++) {
      const atMm = startMm + press * stepMm
      const hadAt = (way: number) => (x: number) => {
        const place = (atMm + way * x) / PLACE_MM
        const [before, share] = [Math.floor(place), place - Math.floor(place)]
        return had[before]! * (1 - share) + had[before + 1]! * share
      }
      const sidesAt = (m0: number) => [-1, 1].map((way) => sideMm(law, m0, half, offset, hadAt(way), false))
      const m0 = momentFor(law, depthMm, (moment) => sidesAt(moment).reduce((sum, side) => sum + side.depthMm, 0) / 2)
      for (const [index, { touchMm }] of sidesAt(m0).entries())
        for (let step = 0; step * PLACE_MM < touchMm; step++) {
          const place = Math.round(atMm / PLACE_MM) + (index === 0 ? -step : step)
          had[place] = Math.max(had[place]!, m0 * (1 - (step * PLACE_MM) / touchMm))
        }
    }
  }
  // From half-way before to half-way behind some presses in the middle.
  const middle = Math.floor(presses / 2)
  const from = Math.round((startMm + (middle - 2.5) * stepMm) / PLACE_MM)
  return [...had.slice(from, from + Math.round((4 * stepMm) / PLACE_MM))].map(law.left)
}
