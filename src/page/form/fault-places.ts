import type { Fault } from '../../measure/fault.ts'
import type { Shape } from './form-shape.ts'
import { planShape } from './plan-shape.ts'

/** Faults by the field, table or group of the form they belong to; '' for the plan as a whole. */
export type FaultsByPlace = ReadonlyMap<string, readonly Fault[]>

export function faultsByPlace(faults: readonly Fault[]): FaultsByPlace {
  const places = new Map<string, Fault[]>()
  for (const fault of faults) {
    const place = placeInForm(fault.path)
    places.set(place, [...(places.get(place) ?? []), fault])
  }
  return places
}

/** The place in the form for a place in the plan: the field itself, or the nearest group or table around it. */
export function placeInForm(path: Fault['path']): string {
  if (path.length === 1 && BESIDE_THE_PLAN.includes(String(path[0]))) return String(path[0])
  const place: (string | number)[] = []
  let shape: Shape | undefined = planShape
  for (let n = 0; n < path.length && shape; n++) {
    const named = String(path[n])
    const key: string = named in shape.cells ? named : (FIELD_OF[named] ?? named)
    const next = path[n + 1]
    const numbersGroup: string | undefined =
      next === undefined || next === 'rectangles' ? undefined : GROUP_OF_NUMBERS[key]
    if (key === 'section' && next === 'rectangles') continue
    if (numbersGroup) {
      place.push(numbersGroup)
      shape = shape.groups?.[numbersGroup]
    } else if (shape.tables?.[key]) {
      place.push(key)
      if (typeof next !== 'number') break
      place.push(next)
      shape = shape.tables[key]
      n++
    } else if (key in shape.cells) {
      place.push(key)
      break
    } else if (shape.groups?.[key]) {
      place.push(key)
      shape = shape.groups[key]
    } else break
  }
  return place.join('.')
}

/** Fields of the plan that have another name in the form. */
const FIELD_OF: Readonly<Record<string, string>> = { radius: 'across', diameter: 'across', degree: 'across' }

/** Where the plan may have numbers instead of a name, the numbers have their own group in the form. */
const GROUP_OF_NUMBERS: Readonly<Record<string, string>> = { section: 'measured', material: 'metal' }

/** Fields of the form that are not part of the plan. */
const BESIDE_THE_PLAN: readonly string[] = ['name', 'notes']
