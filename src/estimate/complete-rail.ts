import { DEFAULT_RESOLUTION } from '../bending/calibration/effective-yield.ts'
import { metalOfTemper } from '../bending/metal.ts'
import { rectanglesOf, sectionProperties } from '../bending/section-properties.ts'
import { MATERIAL_SPELLINGS, MATERIALS } from '../catalogue/materials.ts'
import { PROPORTIONS_OF_HEIGHT, SECTIONS } from '../catalogue/sections.ts'
import { formatMm } from '../measure/length.ts'
import type { Assume } from './complete-plan.ts'
import { metalOfNumbers } from './own-metal.ts'
import type {
  CustomMetal,
  CustomSection,
  PlanMetal,
  PlanSection,
  RailInput,
  RectangleSection,
  TestBend,
} from './plan.ts'

/** The section from the catalogue, or the user's own numbers; an unknown code throws. */
export function completeSection(section: RailInput['section'], assume: Assume): PlanSection {
  if (typeof section === 'string') {
    const row = SECTIONS.find(({ id }) => id === section)
    if (!row) throw new RangeError(`no section ${section}`)
    if (row.estimatedFields.length > 0)
      assume('/rail/section', row.name, `${row.source}; six numbers from a caliper are better`)
    return { ...row, properties: sectionProperties(rectanglesOf(row)) }
  }
  return 'rectangles' in section ? ofRectangles(section) : ofCaliperNumbers(section, assume)
}

function ofRectangles({ rectangles }: RectangleSection): PlanSection {
  const properties = sectionProperties(rectangles)
  const { heightMm } = properties
  return { id: 'custom', name: ownName(heightMm), heightMm, headWidthMm: rectangles.at(-1)!.widthMm, properties }
}

function ofCaliperNumbers(section: CustomSection, assume: Assume): PlanSection {
  const { height: heightMm, headWidth: headWidthMm, footWidth: footWidthMm, webThickness: webThicknessMm } = section
  const depth = (name: 'headDepth' | 'footDepth') => {
    const share = PROPORTIONS_OF_HEIGHT[name]
    const depthMm = heightMm * share
    assume(`/rail/section/${name}`, formatMm(depthMm, 4), `not given; ${share} of the height`)
    return depthMm
  }
  const headDepthMm = section.headDepth ?? depth('headDepth')
  const footDepthMm = section.footDepth ?? depth('footDepth')
  const properties = sectionProperties(
    rectanglesOf({ heightMm, headWidthMm, footWidthMm, webThicknessMm, headDepthMm, footDepthMm }),
  )
  return { id: 'custom', name: ownName(heightMm), heightMm, headWidthMm, properties }
}

function ownName(heightMm: number): string {
  return `Own section, ${formatMm(heightMm, 4)} high`
}

/** The test bends, with what is assumed of their readings. */
export function completeCalibration({ calibration = [] }: RailInput, assume: Assume): readonly TestBend[] {
  const { radiusMm, chordMm, depthMm } = DEFAULT_RESOLUTION
  const radii = `radii good to ${formatMm(radiusMm)}, or to a reading over ${formatMm(chordMm)}, whichever is coarser`
  const byRadii = calibration.filter((test) => 'formedRadius' in test).length
  const values = [
    ...(byRadii > 0 ? [radii] : []),
    ...(byRadii < calibration.length ? [`depths good to ${formatMm(depthMm, 2)}`] : []),
  ]
  if (values.length > 0)
    assume('/rail/calibration', values.join('; '), 'the band of the yield rests on it, common practice')
  return calibration
}

/** The metal from the catalogue, or by its own numbers; an unknown name throws. */
export function completeMetal(rail: RailInput, assume: Assume): PlanMetal {
  return typeof rail.material === 'string' ? ofName(rail.material, rail, assume) : ofNumbers(rail.material, assume)
}

function ofName(name: string, { temper, calibration }: RailInput, assume: Assume): PlanMetal {
  const id = MATERIAL_SPELLINGS[name] ?? name
  const material = MATERIALS.find((row) => row.id === id)
  if (!material) throw new RangeError(`no material ${name}`)
  const row = material.tempers.find((one) => one.id === (temper ?? material.usualTemper))
  if (!row) throw new RangeError(`no temper ${temper} of ${material.id}`)
  if (temper === undefined) {
    const mass = `not given; its mass is that of ${row.id} (${row.densityKgM3} kg/m³)`
    assume(
      '/rail/temper',
      'unknown',
      calibration?.length
        ? `${mass}, and so is its hardening; its yield is told by the test bends`
        : `${mass}, its bending a range over the tempers`,
    )
  }
  return {
    id: material.id,
    name: material.name,
    temper: temper ?? null,
    tempers: material.tempers,
    nominal: metalOfTemper(row),
    densityKgM3: row.densityKgM3,
    expansionPerK: row.expansionPerK,
    resistivityOhmM: row.resistivityOhmM,
  }
}

function ofNumbers(metal: CustomMetal, assume: Assume): PlanMetal {
  if (metal.densityKgM3 === undefined)
    assume('/rail/material/densityKgM3', 'unknown', 'not given; the mass is left open')
  if (metal.elongationPct === undefined)
    assume('/rail/material/elongationPct', 'unknown', 'not given; whether bending overtaxes it is unchecked')
  return {
    id: 'own',
    name: 'Own metal',
    temper: null,
    tempers: [],
    nominal: metalOfNumbers(metal),
    densityKgM3: metal.densityKgM3 ?? null,
    expansionPerK: metal.expansionPerK ?? null,
    resistivityOhmM: metal.resistivityOhmM ?? null,
  }
}
