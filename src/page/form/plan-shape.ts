import { TRAIN } from '../../plan/rows/cars.ts'
import { PLAN } from '../../plan/rows/plan.ts'
import { CUSTOM_METAL, CUSTOM_SECTION, materialName, RAIL, RECTANGLE, sectionId } from '../../plan/rows/rail.ts'
import { TRACK } from '../../plan/rows/track.ts'
import { choice, joinsExistingTick } from './cells.ts'
import { formShape, type Look, lookOf, type Shape, type Values } from './form-shape.ts'

/* The form of a whole plan: derived from its rows, except where a plan has several ways to give a value. */

/** The choices in the list of sections for a measured section and for a stack of rectangles. */
export const MEASURED = 'measured'
export const STACKED = 'rectangles'

/** The choice in the list of metals for one given by its properties. */
export const OWN_METAL = 'own'

/** A list of the catalogue, followed by more choices. */
function listed(
  row: typeof sectionId,
  label: string | undefined,
  ...more: readonly (readonly [string, string])[]
): Look {
  const { options = [], ...look } = lookOf(row)
  return { ...look, hint: label, options: [...options, ...more.map(([value, words]) => ({ value, label: words }))] }
}

const ofRail = formShape(RAIL, 'section', 'material')

const rail: Shape = {
  cells: { section: choice(), material: choice(), ...ofRail.cells },
  looks: {
    section: listed(
      sectionId,
      RAIL.fields.section.hint,
      [MEASURED, 'Measured with calipers'],
      [STACKED, 'Stack of rectangles'],
    ),
    material: listed(materialName, RAIL.fields.material.hint, [OWN_METAL, 'Other: enter properties']),
    ...ofRail.looks,
  },
  groups: { metal: formShape(CUSTOM_METAL), measured: formShape(CUSTOM_SECTION) },
  tables: { rectangles: formShape(RECTANGLE), ...ofRail.tables },
  toFields: ({ section, material, ...wire }) => ({
    ...wire,
    ...sectionFields(section),
    ...(isObject(material) ? { material: OWN_METAL, metal: material } : material !== undefined && { material }),
  }),
  toWire: ({ section, measured, rectangles, material, metal: numbers, ...fields }) => {
    const own =
      section === MEASURED ? (measured ?? {}) : section === STACKED ? { rectangles: rectangles ?? [] } : section
    const ofMetal = material === OWN_METAL ? (numbers ?? {}) : material
    return {
      ...fields,
      ...(own !== undefined && { section: own }),
      ...(ofMetal !== undefined && { material: ofMetal }),
    }
  },
}

function sectionFields(section: unknown): Values {
  if (!isObject(section)) return section === undefined ? {} : { section }
  const isStack = Array.isArray(section.rectangles) && Object.keys(section).length === 1
  return isStack ? { section: STACKED, rectangles: section.rectangles } : { section: MEASURED, measured: section }
}

/** A checkbox for each end that joins existing track. A description of that track has no fields and is preserved. */
const joins = TRACK.fields.joinsExisting.item.fields
const joinsExisting: Shape = {
  cells: { start: joinsExistingTick, end: joinsExistingTick },
  looks: { start: { label: joins.start.label!, tick: true }, end: { label: joins.end.label!, tick: true } },
}

const ofTrack = formShape(TRACK, 'joinsExisting')
const track: Shape = { ...ofTrack, groups: { ...ofTrack.groups, joinsExisting } }

/** A car that a plan gives by its name alone is a row without a count. */
const trains: Shape = {
  ...formShape(TRAIN),
  toFields: ({ cars, ...wire }) => ({
    ...wire,
    ...(Array.isArray(cars) && { cars: cars.map((car: unknown) => (typeof car === 'string' ? { car } : car)) }),
  }),
  toWire: ({ cars, ...fields }) => ({
    ...fields,
    ...(Array.isArray(cars) && { cars: cars.map((row: Values) => (isNameAlone(row) ? row.car : row)) }),
  }),
}

function isNameAlone(row: unknown): boolean {
  return isObject(row) && row.car !== undefined && Object.keys(row).length === 1
}

const ofPlan = formShape(PLAN, 'rail', 'tracks')

/** A plan as the form shows it. A plan without track power has no field for that: it is the same as leaving all blank. */
export const planShape: Shape = {
  ...ofPlan,
  groups: { ...ofPlan.groups, rail },
  tables: { ...ofPlan.tables, tracks: track, trains },
  toFields: ({ power: supply, ...wire }) =>
    isObject(supply) || supply === undefined
      ? { ...wire, ...(supply && { power: supply }) }
      : { ...wire, noPower: supply },
  toWire: ({ noPower, ...fields }) => (noPower === undefined || fields.power ? fields : { ...fields, power: noPower }),
}

export function isObject(value: unknown): value is Values {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
