import { withUnit } from '../form/bare-numbers.ts'
import { type FormPart, formOfPlan } from '../form/plan-form.ts'
import { blankForm } from '../form/rows.ts'
import { type LengthsIn, readLengthsIn } from '../show-length.ts'

/** The six fields that a plan starts with, as they were sent; curve sizes are diameters of the centre line. */
export interface Started {
  readonly section: string
  readonly material: string
  readonly stick: string
  readonly curves: readonly string[]
  readonly lengthsIn: LengthsIn
}

/** How many curve sizes are asked for. */
export const CURVES_ASKED = 3

/** The common rail and metal where they are not sent. On a page in feet a bare number is inches. */
export function startedBy(query: URLSearchParams): Started {
  const lengthsIn = readLengthsIn(query.get('show') ?? undefined)
  const length = (text: string) => {
    const typed = text.replaceAll('\0', '').trim()
    return lengthsIn === 'feet' ? withUnit(typed, 'in') : typed
  }
  const { section = '', material = '' } = blankForm().groups.rail!.cells
  return {
    section: query.get('section') ?? section,
    material: query.get('material') ?? material,
    stick: length(query.get('stick') ?? ''),
    curves: query
      .getAll('curve')
      .slice(0, CURVES_ASKED)
      .map(length)
      .filter((curve) => curve !== ''),
    lengthsIn,
  }
}

/** The form of a new plan with what was started. */
export function startedForm({ section, material, stick }: Started): FormPart {
  const form = blankForm()
  const { rail } = form.groups
  const supplies: FormPart['groups'] =
    stick === '' ? {} : { supplies: formOfPlan({ supplies: { sticks: [{ length: stick }] } }).groups.supplies! }
  return {
    ...form,
    groups: { ...form.groups, ...supplies, rail: { ...rail!, cells: { ...rail!.cells, section, material } } },
  }
}
