import type { z } from '@hono/zod-openapi'
import { type AskedSheets, type AskedTemplate, PAPERS, PRINTED_SHEETS, TEMPLATES } from '../../paper/papers.ts'
import { LENGTH } from '../../plan/fields/bounds.ts'
import type { ParameterFault } from '../problem.ts'
import { choiceParameter, countParameter, lengthParameter, namesParameter, query, textParameter } from './query.ts'

const FOR = [...PRINTED_SHEETS, 'templates'] as const

/** No list of all names is longer. */
const LONGEST = 100

const about = (description: string, example?: string | number) => ({
  param: { description, ...(example !== undefined && { example }) },
})

/** The most that a drawing is reduced. */
const SMALLEST_SCALE = 20_000

/** What is to be printed. */
export const SHEETS_ASKED = {
  for: namesParameter('PrintedSheets', FOR, {
    what: 'a sheet',
    longest: LONGEST,
    example: ['saw', 'bench'],
    description:
      'The sheets to print, with commas between: saw,bench. They come in the order of the work. All but the templates when left out; templates are printed alone.',
  }),
  paper: choiceParameter('Paper', PAPERS, 'a size of paper').optional().openapi(about('a4 when left out.')),
  scale: countParameter('DrawingScale', { least: 1, most: SMALLEST_SCALE })
    .optional()
    .openapi(
      about(
        'The scale of the plan on the line sheet: 50 is 1:50. When left out, a standard scale that suits the plan.',
        50,
      ),
    ),
  template: choiceParameter('Template', TEMPLATES, 'a template')
    .optional()
    .openapi(
      about(
        'With for=templates: the rails of a curve, a gauge to hold against a bent rail (chord), a turnout with its ties, or the room that a car takes on a curve (envelope). curve when left out.',
      ),
    ),
  track: textParameter('TemplateTrack', 200)
    .optional()
    .openapi(about('With for=templates: the name of the track. The first with such a thing when left out.', 'main')),
  element: countParameter('TemplateElement', { least: 0, most: 4_999 })
    .optional()
    .openapi(
      about(
        'For a curve, chord or envelope: the number of the element on its track, from 0. The first arc when left out.',
        1,
      ),
    ),
  rail: choiceParameter('TemplateRail', ['outer', 'inner'], 'a rail')
    .optional()
    .openapi(about('For a chord gauge. outer when left out.')),
  chord: lengthParameter('TemplateChord', LENGTH)
    .optional()
    .openapi(about('For a chord gauge: its chord. The one that the bench sheet recommends when left out.', '500')),
  turnout: textParameter('TemplateTurnout', 200)
    .optional()
    .openapi(about('For a turnout: its name. The first when left out.', 'W1')),
  car: textParameter('TemplateCar', 200)
    .optional()
    .openapi(about('For an envelope: the name of the car. The longest when left out.', 'box car')),
}

const SheetsQuery = query(SHEETS_ASKED)

export type Asked = AskedSheets | AskedTemplate

/** The parameters that only templates have, by the templates that take them. */
const ONLY_FOR = {
  element: ['curve', 'chord', 'envelope'],
  rail: ['chord'],
  chord: ['chord'],
  turnout: ['turnout'],
  car: ['envelope'],
} as const

/** What is asked for, or the parameters that contradict others. */
export function askedSheets(
  options: Omit<z.output<typeof SheetsQuery>, 'refresh'>,
): { ok: true; asked: Asked } | { ok: false; faults: ParameterFault[] } {
  const { for: sheets = PRINTED_SHEETS, paper = 'a4', scale, template, track } = options
  const faults: ParameterFault[] = []
  if (!sheets.includes('templates' as never)) {
    for (const name of ['template', 'track', ...Object.keys(ONLY_FOR)] as const)
      if (options[name as 'template'] !== undefined) faults.push(withoutEffect(name, 'add for=templates'))
    if (faults.length > 0) return { ok: false, faults }
    return { ok: true, asked: { sheets: PRINTED_SHEETS.filter((name) => sheets.includes(name)), paper, scale } }
  }
  if (sheets.some((name) => name !== 'templates'))
    faults.push({
      parameter: 'for',
      code: 'contradictory',
      detail: 'templates are printed alone',
      hint: 'make two requests, one with for=templates',
    })
  const which = template ?? 'curve'
  if (scale !== undefined) faults.push(withoutEffect('scale', 'leave it out: templates are in true size'))
  for (const [name, templates] of Object.entries(ONLY_FOR))
    if (options[name as keyof typeof ONLY_FOR] !== undefined && !(templates as readonly string[]).includes(which))
      faults.push(withoutEffect(name, `leave it out, or add template=${templates[0]}`))
  if (options.element !== undefined && track === undefined)
    faults.push({
      parameter: 'track',
      code: 'missing',
      detail: 'an element is counted along a track',
      hint: 'give the name of its track',
    })
  if (faults.length > 0) return { ok: false, faults }
  const { element, rail, chord, turnout, car } = options
  return { ok: true, asked: { template: which, paper, track, element, rail, chord, turnout, car } }
}

function withoutEffect(parameter: string, hint: string): ParameterFault {
  return { parameter, code: 'contradictory', detail: 'it has no effect on what is asked for', hint }
}
