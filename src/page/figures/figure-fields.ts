import { isDeepStrictEqual } from 'node:util'
import { FIGURE, type FigureName } from '../../plan/rows/figures.ts'
import { asMeant } from '../form/bare-numbers.ts'
import { formShape, type Shape } from '../form/form-shape.ts'
import { blankPart, type FormPart, formOfFields, mapped, planOfForm } from '../form/plan-form.ts'
import type { LengthsIn } from '../show-length.ts'

/** The fields of the form for each figure, with what is said of the figure. */
const ON_PAGE: Readonly<Record<FigureName, { readonly about: string; readonly fields: readonly string[] }>> = {
  'passing-loop': { about: 'a siding with a turnout at either end', fields: ['side', 'spacing', 'clear', 'radius'] },
  crossover: { about: 'to a new straight track beside this one', fields: ['side', 'spacing'] },
  ladder: {
    about: 'parallel tracks at a ladder of turnouts, or between two',
    fields: ['side', 'spacing', 'count', 'clear', 'doubleEnded', 'radius'],
  },
  'reverse-loop': { about: 'at the end of the track, back to its own turnout', fields: ['side', 'radius'] },
  wye: { about: 'three turnouts to turn on, with a tail square to the track', fields: ['side', 'radius', 'clear'] },
  parallel: { about: 'a second track alongside the whole of this one', fields: ['side', 'spacing'] },
  junction: {
    about: 'a branch; with a track spacing, of double track',
    fields: ['side', 'angle', 'radius', 'spacing'],
  },
}

export const FIGURES_ON_PAGE = Object.keys(ON_PAGE) as FigureName[]

export function aboutFigure(figure: FigureName): string {
  return ON_PAGE[figure].about
}

/** What a blank field means where it is not what it means for most figures. */
const BLANK: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  junction: { spacing: 'single track' },
  wye: { clear: '1000 mm' },
}

/** Of each figure, its part of the form. */
export const FIGURE_SHAPES: Readonly<Record<string, Shape>> = mapped(ON_PAGE, ({ fields }, figure) => {
  const shape = formShape(FIGURE, ...Object.keys(FIGURE.fields).filter((name) => !fields.includes(name)))
  const looks = mapped(shape.looks, (look, key) => ({ ...look, blank: BLANK[figure]?.[key] ?? look.blank }))
  return { ...shape, looks }
})

/** Where in the plan a figure is put: in a straight, behind an element, or at the end of a track. */
export const WHERE_WORDS = {
  within: 'In a straight',
  after: 'After an element',
  end: 'At the end of the track',
} as const

/** What was typed for figures, beside the plan. */
export interface FiguresTyped {
  readonly parts: Readonly<Record<string, FormPart>>
  /** The track, by its number in the plan. */
  readonly track: string
  readonly where: string
  readonly element: string
  /** Frog number of turnouts of which the plan has no kind. */
  readonly number: string
}

export const PREFIX = 'figure.'

export const NOTHING_TYPED: FiguresTyped = {
  parts: mapped(FIGURE_SHAPES, blankPart),
  track: '0',
  where: 'within',
  element: '',
  number: '6',
}

export function figuresTyped(fields: ReadonlyMap<string, string>, lengthsIn: LengthsIn): FiguresTyped {
  const at = (name: string, usual: string) => fields.get(`${PREFIX}${name}`) ?? usual
  return {
    parts: mapped(FIGURE_SHAPES, (shape, figure) => {
      const start = `${PREFIX}${figure}.`
      const own = [...fields].flatMap(([name, text]): [string, string][] =>
        name.startsWith(start) ? [[name.slice(start.length), text]] : [],
      )
      return own.length === 0 ? blankPart(shape) : asMeant(formOfFields(new Map(own), shape), shape, lengthsIn)
    }),
    track: at('track', NOTHING_TYPED.track),
    where: at('where', NOTHING_TYPED.where),
    element: at('element', ''),
    number: at('number', NOTHING_TYPED.number),
  }
}

/** What was typed as fields again, for pages that take it along without showing it; nothing of figures left as they were. */
export function fieldsOfFigures({ parts, ...others }: FiguresTyped): [name: string, text: string][] {
  const ofParts = Object.entries(parts).flatMap(([figure, { cells }]) =>
    isDeepStrictEqual(cells, NOTHING_TYPED.parts[figure]!.cells)
      ? []
      : Object.entries(cells).map(([key, text]): [string, string] => [`${PREFIX}${figure}.${key}`, text]),
  )
  return [...ofParts, ...Object.entries(others).map(([key, text]): [string, string] => [`${PREFIX}${key}`, text])]
}

/** The fields of a figure as a request has them. */
export function figureAsTyped({ parts }: FiguresTyped, figure: FigureName): Record<string, unknown> {
  return planOfForm(parts[figure]!, FIGURE_SHAPES[figure]!)
}

export interface FigureButton {
  readonly verb: 'show' | 'put'
  readonly figure: FigureName
}

/** The value of a button of a figure; null if it is another button. */
export function readFigureButton(text: string): FigureButton | null {
  const [word, verb, figure] = text.split(' ')
  const known = FIGURES_ON_PAGE.find((name) => name === figure)
  return word === 'figure' && (verb === 'show' || verb === 'put') && known ? { verb, figure: known } : null
}
