import { metalOfTemper } from '../bending/metal.ts'
import { rectanglesOf, sectionProperties } from '../bending/section-properties.ts'
import { MATERIAL_SPELLINGS, MATERIALS } from '../catalogue/materials.ts'
import { PROPORTIONS_OF_HEIGHT, SECTIONS } from '../catalogue/sections.ts'
import { formatMm } from '../measure/length.ts'
import type { Assume } from './complete-plan.ts'
import { metalOfNumbers } from './own-metal.ts'
import type { CustomMetal, CustomSection, PlanMetal, PlanSection, RailInput, RectangleSection } from './plan.ts'

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
  const { heightMm, headWidthMm } = section
  const depth = (name: 'headDepth' | 'footDepth') => {
    const share = PROPORTIONS_OF_HEIGHT[name]
    const depthMm = heightMm * share
    assume(`/rail/section/${name}`, formatMm(depthMm, 4), `not given; ${share} of the height`)
    return depthMm
  }
  const headDepthMm = section.headDepthMm ?? depth('headDepth')
  const footDepthMm = section.footDepthMm ?? depth('footDepth')
  const properties = sectionProperties(rectanglesOf({ ...section, headDepthMm, footDepthMm }))
  return { id: 'custom', name: ownName(heightMm), heightMm, headWidthMm, properties }
}

function ownName(heightMm: number): string {
  return `Own section, ${formatMm(heightMm, 4)} high`
}

/** The metal from the catalogue, or by its own numbers; an unknown name throws. */
export function completeMetal(rail: RailInput, assume: Assume): PlanMetal {
  return typeof rail.material === 'string'
    ? ofName(rail.material, rail.temper, assume)
    : ofNumbers(rail.material, assume)
}

function ofName(name: string, temper: string | undefined, assume: Assume): PlanMetal {
  const id = MATERIAL_SPELLINGS[name] ?? name
  const material = MATERIALS.find((row) => row.id === id)
  if (!material) throw new RangeError(`no material ${name}`)
  const row = material.tempers.find((one) => one.id === (temper ?? material.usualTemper))
  if (!row) throw new RangeError(`no temper ${temper} of ${material.id}`)
  if (temper === undefined)
    assume(
      '/rail/temper',
      'unknown',
      `not given; its mass is that of ${row.id} (${row.densityKgM3} kg/m³), its bending a range over the tempers`,
    )
  return {
    id: material.id,
    name: material.name,
    temper: temper ?? null,
    tempers: material.tempers,
    nominal: metalOfTemper(row),
    densityKgM3: row.densityKgM3,
  }
}

function ofNumbers(metal: CustomMetal, assume: Assume): PlanMetal {
  if (metal.densityKgM3 === undefined)
    assume('/rail/material/densityKgM3', 'unknown', 'not given; the mass is left open')
  return {
    id: 'own',
    name: 'Own metal',
    temper: null,
    tempers: [],
    nominal: metalOfNumbers(metal),
    densityKgM3: metal.densityKgM3 ?? null,
  }
}
