import { BENT_RAIL_FIELDS, railRadii, sheetOf } from '../../bending/bends.ts'
import { BEND_FORMING, CALIBRATION_ANSWER } from '../../bending/forming/types.ts'
import { bendingFindings } from '../../checking/bending.ts'
import { FINDING } from '../../checking/finding.ts'
import { toRadians } from '../../measure/angle.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { completeBender } from '../../plan/completing/bender.ts'
import { assumeReadings, completeRail, completeSection } from '../../plan/completing/rail.ts'
import { type Answer, component, length, list, nullable, object, text } from '../../plan/fields/answer.ts'
import { ASSUMPTION, type Assumption } from '../../plan/fields/assumption.ts'
import { type Assume, SILENT } from '../../plan/fields/complete.ts'
import type { CurveInput } from '../../plan/rows/questions.ts'
import { USUAL } from '../../plan/usual.ts'
import { benderOf } from '../bender.ts'
import { bendingOf } from '../bending.ts'
import { SECTION_PROPERTIES } from '../bill/answer.ts'
import { sectionPropertiesAnswer } from '../bill/rail-summary.ts'
import { cautionsFor } from '../cautions.ts'

import { metalOf, sectionOf } from '../rail.ts'

const CURVE_RAIL = object({ ...BENT_RAIL_FIELDS, forming: BEND_FORMING })

type CurveRailAnswer = Answer<typeof CURVE_RAIL>

export const CURVE_ANSWER = component('CurveAnswer', 'The two rails of one curve, the outer one first.', {
  trackRadiusMm: length(),
  section: SECTION_PROPERTIES,
  rails: list(CURVE_RAIL),
  calibration: nullable(CALIBRATION_ANSWER),
  findings: list(FINDING),
  assumptions: list(ASSUMPTION),
  cautions: list(text()),
})

export type CurveAnswer = Answer<typeof CURVE_ANSWER>

const USUAL_ANGLE_DEG = 90

/**
 * The two rails of one curve: ordinates, measuring sheet and forming, without a plan. Joints are not known here
 * and count as none.
 *
 * @param input without faults in its rail and bender (see `planFaults`), radius > (gauge + 2·headWidth)/2
 * @returns outer rail first; or the test bends that cannot be true, or the chords longer than the diameter
 */
export function oneCurve(input: CurveInput): { ok: true; curve: CurveAnswer } | { ok: false; faults: Fault[] } {
  const assumptions: Assumption[] = []
  const assume: Assume = (field, value, reason) => assumptions.push({ field, value, reason })
  const usual = <T>(field: string, given: T | undefined, value: T, shown: string): T => {
    if (given === undefined) assume(field, shown, 'not given')
    return given ?? value
  }
  const gaugeMm = usual('/gauge', input.gauge, USUAL.gauge, formatMm(USUAL.gauge))
  const rail = completeRail(input.rail, assume)
  const section = sectionOf(rail.section)
  const metal = metalOf(rail)
  const bender = benderOf(completeBender(input.bender, assume))
  const chordsMm = usual('/chords', input.chords, USUAL.chords, USUAL.chords.map((mm) => formatMm(mm)).join(' and '))
  const resolutionMm = usual('/resolution', input.resolution, USUAL.resolution, formatMm(USUAL.resolution))
  const angleDeg =
    bender.work === 'assembled' ? usual('/angle', input.angle, USUAL_ANGLE_DEG, `${USUAL_ANGLE_DEG}°`) : USUAL_ANGLE_DEG
  assumeReadings(input.rail, assume)
  const supplies = { ties: { spacing: USUAL.tieSpacing } }
  const bending = bendingOf({
    section,
    metal,
    rail,
    bender,
    gauge: gaugeMm,
    chords: chordsMm,
    resolution: resolutionMm,
    supplies,
  })
  if (!bending.ok) return bending

  const tooLong = chordFaults({ ...input, chords: chordsMm })
  if (tooLong.length > 0) return { ok: false, faults: tooLong }

  const { radius: trackRadiusMm } = input
  const turnedRad = toRadians(angleDeg)
  const rails = (['outer', 'inner'] as const).map((rail): CurveRailAnswer => {
    const radii = railRadii(trackRadiusMm, rail, gaugeMm, section.headWidthMm)
    const { leftOutMm: _, ...sheet } = sheetOf(radii.measuredRadiusMm, null, bending.ofPlan)
    const { radiusMm } = radii
    const forming = bending.ofPlan.former.form({ rail, radiusMm, trackRadiusMm, gaugeMm, turnedRad, jointsInBend: 0 })
    return { rail, ...radii, ...sheet, forming }
  })
  const bends = rails.map((rail) => ({ ...rail, track: null, element: null }))
  return {
    ok: true,
    curve: {
      trackRadiusMm,
      section: sectionPropertiesAnswer(section.properties),
      rails,
      calibration: bending.calibration,
      findings: bendingFindings(bends, bending.calibration, bending.ofMetal),
      assumptions,
      cautions: cautionsFor(
        { metal, bender, power: null },
        null,
        false,
        rails.some(({ forming }) => forming.method === 'spring-in'),
      ),
    },
  }
}

/**
 * The chords that are longer than the inner rail's diameter.
 *
 * @param curve with a section without faults and a radius that the inner rail can have
 */
export function chordFaults(
  curve: Pick<CurveInput, 'radius' | 'gauge' | 'chords'> & { readonly rail: Pick<CurveInput['rail'], 'section'> },
): Fault[] {
  const { radius: radiusMm, gauge: gaugeMm = USUAL.gauge, chords: chordsMm = USUAL.chords } = curve
  const { headWidthMm } = sectionOf(completeSection(curve.rail.section, SILENT))
  const longestMm = 2 * railRadii(radiusMm, 'inner', gaugeMm, headWidthMm).measuredRadiusMm
  return chordsMm.flatMap((chordMm, index) =>
    chordMm <= longestMm
      ? []
      : [
          {
            path: ['chords', index],
            code: 'out-of-range',
            detail: `a chord of ${formatMm(chordMm, 3)} does not fit the inner rail; the longest possible is ${formatMm(longestMm, 3)}`,
            hint: 'use a shorter chord',
          },
        ],
  )
}
