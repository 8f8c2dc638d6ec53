import { MATERIAL_SPELLINGS, MATERIALS } from '../../catalogue/materials.ts'
import { SECTIONS } from '../../catalogue/sections.ts'
import type { Open, Whole } from '../fields/field.ts'
import { byWord, choice, length, list, number, only, part, shape, text, variants } from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'

/* What the rail is, and what test bends told about it. */

const sectionSpec = {
  component: 'SectionId',
  required: true,
  words: SECTIONS.map(({ id, name, estimated }) => [id, estimated ? `${name} (estimated)` : name] as const),
  what: 'a rail section',
  says: 'A section from the catalogue, by its code',
  label: 'Rail section',
} as const

export const sectionId = choice(sectionSpec)

export const materialName = choice({
  component: 'MaterialName',
  required: true,
  words: MATERIALS.map(({ id, name }) => [id, name] as const),
  spellings: MATERIAL_SPELLINGS,
  what: 'a material',
  says: 'A material from the catalogue',
  label: 'Metal',
})

export const temper = text({
  component: 'TemperName',
  longest: 60,
  says: 'A temper of the material, by its id in the catalogue',
  label: 'Temper',
  hint: 'hardness as supplied',
})

export const CUSTOM_SECTION = shape(
  'CustomSection',
  'A rail section measured with calipers. The depths follow by proportion when left out.',
  {
    height: length({ required: true, label: 'Rail height' }),
    headWidth: length({ required: true, label: 'Head width' }),
    footWidth: length({ required: true, label: 'Foot width' }),
    webThickness: length({ required: true, label: 'Web thickness' }),
    headDepth: length({ follows: 'by proportion', label: 'Head depth' }),
    footDepth: length({ follows: 'by proportion', label: 'Foot depth' }),
  },
)

export const RECTANGLE = shape(null, undefined, {
  width: length({ required: true, label: 'Width' }),
  height: length({ required: true, label: 'Height' }),
})

const RECTANGLE_SECTION = shape(
  'RectangleSection',
  'A rail section as a stack of rectangles, all centred on its vertical axis, from foot to head.',
  {
    rectangles: list(RECTANGLE, {
      required: true,
      least: 1,
      most: LIMITS.rectangles,
      label: 'Rectangles',
      entry: 'rectangle',
    }),
  },
)

/** One of the catalogue, six numbers from calipers, or a stack of rectangles. */
export const SECTION = variants('Section', [sectionId, CUSTOM_SECTION, RECTANGLE_SECTION] as const, (value) =>
  hasField(value, 'rectangles') ? 2 : isObject(value) ? 1 : 0,
)

const positive = (component: string, most: number, unit: string, says: string) =>
  ({ component, least: 1e-9, most, unit, says }) as const

const HARDENING = byWord(
  'Hardening',
  'model',
  [
    shape(null, undefined, {
      model: only('ramberg-osgood', 'Ramberg–Osgood', 'Hardening model'),
      n: number({
        component: 'RambergOsgoodN',
        required: true,
        least: 1.000_001,
        most: 1000,
        unit: 'alone',
        says: 'Exponent n of e = s/E + 0.002·(s/yield)^n',
        label: 'Exponent n',
        hint: 'Ramberg–Osgood only',
      }),
    }),
    shape(null, undefined, {
      model: only('linear', 'Linear', 'Hardening model'),
      tangentModulusGpa: number({
        component: 'TangentModulusGpa',
        required: true,
        least: 0,
        most: 2000,
        unit: 'in GPa',
        says: 'Slope beyond the yield, GPa',
        label: 'Tangent modulus, GPa',
        hint: 'linear hardening only',
      }),
    }),
    shape(null, undefined, { model: only('perfectly-plastic', 'Perfectly plastic', 'Hardening model') }),
  ] as const,
  'Stress and strain of the metal beyond its yield.',
)

export const CUSTOM_METAL = shape('CustomMetal', 'A metal given by its properties.', {
  youngsModulusGpa: number({
    ...positive('YoungsModulusGpa', 2000, 'in GPa', "Young's modulus, GPa"),
    required: true,
    label: 'Young’s modulus, GPa',
  }),
  yieldMpa: number({
    ...positive('YieldMpa', 10_000, 'in MPa', 'Yield: 0.2 % proof stress, MPa'),
    required: true,
    label: 'Yield strength (0.2 % proof), MPa',
  }),
  hardening: part(HARDENING, { required: true, label: 'Hardening model' }),
  elongationPct: number({
    ...positive(
      'ElongationPct',
      1000,
      'in percent',
      'Elongation at fracture, percent; strain is not checked when left out',
    ),
    label: 'Elongation at fracture, %',
    unknown: 'not given; bending strain is not checked',
    blank: 'strain is not checked',
  }),
  densityKgM3: number({
    ...positive('DensityKgM3', 30_000, 'in kg/m³', 'Density, kg/m³; no mass is worked out when left out'),
    label: 'Density, kg/m³',
    unknown: 'not given; the mass is not calculated',
    blank: 'weight is not calculated',
  }),
  expansionPerK: number({
    component: 'ExpansionPerK',
    least: 0,
    most: 1e-3,
    unit: 'per kelvin',
    says: 'Thermal expansion, 1/K; no gaps are worked out when left out',
    label: 'Thermal expansion, 1/K',
    hint: 'for example 1.9e-5',
    blank: 'gaps are not calculated',
  }),
  resistivityOhmM: number({
    component: 'ResistivityOhmM',
    least: 0,
    most: 1,
    unit: 'in Ω·m',
    says: 'Resistivity, Ω·m; no voltage drop is worked out when left out',
    label: 'Resistivity, Ω·m',
    hint: 'for example 6.2e-8',
    blank: 'voltage drop is not calculated',
  }),
})

/** One of the catalogue, or a metal given by its numbers. */
export const MATERIAL = variants('RailMaterial', [materialName, CUSTOM_METAL] as const, (value) =>
  isObject(value) ? 1 : 0,
)

const reading = {
  chord: length({ required: true, label: 'with chord', called: 'chord' }),
  ordinate: length({ required: true, label: 'and ordinate', called: 'ordinate' }),
}

const RADII_TEST = shape(
  'RadiiTest',
  'A test bend given by two radii of the middle line of the rail: under load and after release.',
  {
    formedRadius: length({ required: true, label: 'Radius under load' }),
    restingRadius: length({ required: true, label: 'Radius after springback' }),
  },
)
const FORM_TEST = shape(
  'FormTest',
  'A test bend round a form: the radius of the middle line of the rail under load, and an ordinate of the released rail.',
  {
    formedRadius: length({ required: true, label: 'Radius under load' }),
    ...reading,
  },
)
const DEPTH_TEST = shape(
  'DepthTest',
  'A test pass given by the depth of the bender and an ordinate of the released rail.',
  {
    depth: length({ required: true, label: 'or depth', called: 'depth' }),
    ...reading,
  },
)
const TURNS_TEST = shape(
  'TurnsTest',
  'A test pass given by turns of the bender’s screw and an ordinate of the released rail.',
  {
    turns: number({
      component: 'Turns',
      required: true,
      least: 1e-6,
      most: 10_000,
      unit: 'alone',
      says: 'Turns of the screw, from where the rollers just touch the straight rail',
      label: 'or turns',
      called: 'turns',
    }),
    ...reading,
  },
)

export const TEST_BEND = variants('TestBend', [RADII_TEST, DEPTH_TEST, TURNS_TEST, FORM_TEST] as const, (value) => {
  if (hasField(value, 'turns')) return 2
  if (hasField(value, 'depth')) return 1
  if (!hasField(value, 'chord', 'ordinate')) return 0
  return hasField(value, 'restingRadius') ? 0 : hasField(value, 'formedRadius') ? 3 : 1
})

export const RAIL = shape('Rail', 'The rail, and test bends made with it.', {
  section: part(SECTION, {
    required: true,
    label: 'Rail section',
    hint: 'code: height in thousandths of an inch',
  }),
  material: part(MATERIAL, { required: true, label: 'Metal' }),
  temper,
  calibration: list(TEST_BEND, {
    least: 1,
    most: LIMITS.testBends,
    label: 'Test bends',
    entry: 'test bend',
  }),
})

export interface RailInput extends Open<typeof RAIL.fields> {}
export interface WholeRail extends Whole<typeof RAIL.fields> {}
export interface CustomSection extends Open<typeof CUSTOM_SECTION.fields> {}
export interface CustomMetal extends Open<typeof CUSTOM_METAL.fields> {}
export type TestBend = NonNullable<RailInput['calibration']>[number]

function isObject(value: unknown): boolean {
  return typeof value === 'object' && value !== null
}

/** Whether a value is an object that has one of these fields. */
export function hasField(value: unknown, ...names: string[]): boolean {
  return typeof value === 'object' && value !== null && names.some((name) => name in value)
}
