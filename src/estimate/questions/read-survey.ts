import type { Fault } from '../../measure/fault.ts'
import type { Item, OpenItem } from '../../plan/fields/field.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { readable, schemaOf } from '../../plan/reading/schema.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import { SURVEY, type SurveyInput } from '../../plan/rows/survey.ts'
import { type SurveyDraft, surveyFaults } from '../../survey/faults.ts'
import { mergedFaults } from '../read-plan.ts'

type ReadSurvey =
  | { readonly ok: true; readonly input: SurveyInput }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads a survey, with every fault in and between its fields at once. */
export function readSurvey(raw: unknown): ReadSurvey {
  const parsed = schemaOf(SURVEY).safeParse(raw)
  if (!parsed.success)
    return { ok: false, faults: mergedFaults(faultsOf(parsed.error.issues, raw), surveyFaults(draftOf(raw))) }
  const { distances = [], levels = [], lines = [], points = [], pegs } = parsed.data
  const faults = surveyFaults({ pegs, distances, levels, lines, points })
  return faults.length > 0 ? { ok: false, faults } : { ok: true, input: parsed.data }
}

/** As much of it as can be read; lists that are too long have been reported and are left out. */
function draftOf(raw: unknown): SurveyDraft {
  const each = <I extends Item>(name: keyof SurveyDraft, item: I): (OpenItem<I> | null)[] => {
    const entries = listAt(raw, [name])
    return entries.length > SURVEY.fields[name].most ? [] : entries.map((entry) => readable(item, entry))
  }
  return {
    pegs: each('pegs', SURVEY.fields.pegs.item),
    distances: each('distances', SURVEY.fields.distances.item),
    levels: each('levels', SURVEY.fields.levels.item),
    lines: each('lines', SURVEY.fields.lines.item),
    points: each('points', SURVEY.fields.points.item),
  }
}
