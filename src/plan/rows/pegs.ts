import type { Open, Whole } from '../fields/field.ts'
import { bothOrNeither, choice, exactlyOneOf, length, name, shape } from '../fields/kinds.ts'

/* Pegs in the ground from which track is marked with two tapes. */

const peg = (label: string) => ({
  component: 'PegName',
  longest: 100,
  says: 'Name of a peg of the plan',
  label,
})

const distance = (label: string) => length({ component: 'PegDistance', says: 'Distance by tape, held level', label })

export const PLAN_PEG = shape(
  'PlanPeg',
  'A peg in the ground: where it is on the sheet, or how far it is from two other pegs of the plan and on which side of the line from the first to the second, as you look along it.',
  {
    name: name({ ...peg('Peg'), required: true }),
    x: length({ may: 'of either sign', label: 'x' }),
    y: length({ may: 'of either sign', label: 'y' }),
    first: name(peg('First peg')),
    firstDistance: distance('From the first'),
    second: name(peg('Second peg')),
    secondDistance: distance('From the second'),
    side: choice({
      component: 'PegSide',
      words: { left: 'Left', right: 'Right' },
      what: 'a side',
      label: 'Side',
    }),
    elevation: length({
      may: 'of either sign',
      note: 'Height of its top, as the elevations of the tracks. With it distances along the slope are answered too.',
      label: 'Height of its top',
    }),
  },
  exactlyOneOf('x', 'first'),
  bothOrNeither('x', 'y'),
)

export interface PegInput extends Open<typeof PLAN_PEG.fields> {}
export interface PlanPeg extends Whole<typeof PLAN_PEG.fields> {}
