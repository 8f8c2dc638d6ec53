import { MATERIALS } from '../../catalogue/materials.ts'
import { PROPORTIONS_OF_HEIGHT, SECTIONS } from '../../catalogue/sections.ts'
import { formatMm } from '../../measure/length.ts'
import { type Assume, completed, completing } from '../fields/complete.ts'
import {
  CUSTOM_METAL,
  CUSTOM_SECTION,
  type CustomMetal,
  type CustomSection,
  RAIL,
  type RailInput,
  type WholeRail,
} from '../rows/rail.ts'

/** The rail; the assumptions about its test bends come later (`assumeReadings`). An unknown section or metal throws. */
export function completeRail(rail: RailInput, assume: Assume): WholeRail {
  return completed(RAIL, rail, '/rail', assume, {
    section: (section) => completeSection(section!, assume),
    material: (material) => {
      return typeof material === 'object' ? completeMetal(material, assume) : material!
    },
    temper: (temper) => {
      if (typeof rail.material === 'string') assumeTemper(rail.material, rail, assume)
      return temper ?? null
    },
  })
}

function completeMetal(metal: CustomMetal, assume: Assume) {
  const { field, whole } = completing(CUSTOM_METAL, metal, '/rail/material', assume)
  field('densityKgM3')
  return whole()
}

/** The section: one of the catalogue, or the user's own numbers. */
export function completeSection(section: RailInput['section'], assume: Assume): WholeRail['section'] {
  if (typeof section === 'string') {
    const row = SECTIONS.find(({ id }) => id === section)
    if (!row) throw new RangeError(`no section ${section}`)
    if (row.estimatedFields.length > 0)
      assume('/rail/section', row.name, `${row.source}; six caliper measurements are better`)
    return section
  }
  return 'rectangles' in section ? section : completeCalipers(section, assume)
}

function completeCalipers(section: CustomSection, assume: Assume) {
  const depth = (name: keyof typeof PROPORTIONS_OF_HEIGHT) => (given: number | undefined, at: string) => {
    if (given !== undefined) return given
    const share = PROPORTIONS_OF_HEIGHT[name]
    assume(at, formatMm(section.height * share, 4), `not given; ${share} of the height`)
    return section.height * share
  }
  return completed(CUSTOM_SECTION, section, '/rail/section', assume, {
    headDepth: depth('headDepth'),
    footDepth: depth('footDepth'),
  })
}

function assumeTemper(name: string, { temper, calibration }: RailInput, assume: Assume): void {
  const material = MATERIALS.find(({ id }) => id === name)
  if (!material) throw new RangeError(`no material ${name}`)
  const row = material.tempers.find(({ id }) => id === (temper ?? material.usualTemper))
  if (!row) throw new RangeError(`no temper ${temper} of ${material.id}`)
  if (temper !== undefined) return
  const mass = `not given; its mass is that of ${row.id} (${row.densityKgM3} kg/m³)`
  assume(
    '/rail/temper',
    'unknown',
    calibration?.length
      ? `${mass}, and so is its hardening; its yield comes from the test bends`
      : `${mass}, its bending covers the range of tempers`,
  )
}

/**
 * How accurately a test bend is read: half a percent of a radius, or one reading on a chord, and a depth; common
 * practice.
 */
const TEST_READING = { radiusMm: 5, chordMm: 500, depthMm: 0.05 } as const

/** The assumptions about the readings of test bends. */
export function assumeReadings({ calibration = [] }: RailInput, assume: Assume): void {
  const { radiusMm, chordMm, depthMm } = TEST_READING
  const radii = `radii accurate to ${formatMm(radiusMm)}, or to one reading over ${formatMm(chordMm)}, whichever is coarser`
  const byRadii = calibration.filter((test) => 'formedRadius' in test).length
  const values = [
    ...(byRadii > 0 ? [radii] : []),
    ...(byRadii < calibration.length ? [`depths accurate to ${formatMm(depthMm, 2)}`] : []),
  ]
  if (values.length > 0)
    assume('/rail/calibration', values.join('; '), 'decides the band of the yield, common practice')
}
