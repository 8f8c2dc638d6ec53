import { CALIBRATION_ANSWER } from '../../bending/forming/types.ts'
import type { Fault } from '../../measure/fault.ts'
import { completeBender } from '../../plan/completing/bender.ts'
import { completeRail } from '../../plan/completing/rail.ts'
import { type Answer, component, list } from '../../plan/fields/answer.ts'
import { ASSUMPTION, type Assumption } from '../../plan/fields/assumption.ts'
import { type Assume, completing, SILENT } from '../../plan/fields/complete.ts'
import { CALIBRATION, type CalibrationInput } from '../../plan/rows/questions.ts'
import { USUAL } from '../../plan/usual.ts'
import { benderOf } from '../bender.ts'
import { bendingOf } from '../bending.ts'
import { SECTION_PROPERTIES } from '../bill/answer.ts'
import { sectionPropertiesAnswer } from '../bill/rail-summary.ts'
import { metalOf, sectionOf } from '../rail.ts'

export const CALIBRATION_ALONE = component('CalibrationAnswer', 'What test bends say about a rail.', {
  calibration: CALIBRATION_ANSWER,
  section: SECTION_PROPERTIES,
  assumptions: list(ASSUMPTION),
})

type CalibrationAlone = Answer<typeof CALIBRATION_ALONE>

/** What test bends show about a rail, without a plan; or why they cannot be true. */
export function calibrateAlone(
  input: CalibrationInput,
): { ok: true; answer: CalibrationAlone } | { ok: false; faults: Fault[] } {
  const assumptions: Assumption[] = []
  const assume: Assume = (field, value, reason) => assumptions.push({ field, value, reason })
  const { field } = completing(CALIBRATION, input, '', assume)
  const rail = completeRail(input.rail, assume)
  const resolution = field('resolution')
  const section = sectionOf(rail.section)
  const bending = bendingOf({
    section,
    metal: metalOf(rail),
    rail,
    bender: benderOf(completeBender(input.bender, SILENT)),
    gauge: USUAL.gauge,
    chords: [],
    resolution,
    supplies: { ties: { spacing: USUAL.tieSpacing } },
  })
  if (!bending.ok) return bending
  const answer = {
    calibration: bending.calibration!,
    section: sectionPropertiesAnswer(section.properties),
    assumptions,
  }
  return { ok: true, answer }
}
