import { type Metal, metalOfTemper } from '../bending/metal.ts'
import { rectanglesOf, type SectionProperties, sectionProperties } from '../bending/section-properties.ts'
import { MATERIALS } from '../catalogue/materials.ts'
import { SECTIONS } from '../catalogue/sections.ts'
import type { Material } from '../catalogue/types.ts'
import { formatMm } from '../measure/length.ts'
import type { CustomMetal, WholeRail } from '../plan/rows/rail.ts'

/** The rail's section, from the catalogue, from six caliper measurements or from rectangles. */
export interface PlanSection {
  readonly id: string
  readonly name: string
  readonly heightMm: number
  readonly headWidthMm: number
  readonly properties: SectionProperties
}

/** The rail's metal, from the catalogue or by its numbers. */
export interface PlanMetal {
  readonly id: string
  readonly name: string
  /** As named in the plan; null where it is not, and for a metal given by its numbers. */
  readonly temper: string | null
  /** The possible tempers; empty for a metal given by its numbers. */
  readonly tempers: Material['tempers']
  /** Of the temper, or of the material's usual one. */
  readonly nominal: Metal
  readonly densityKgM3: number | null
  readonly expansionPerK: number | null
  readonly resistivityOhmM: number | null
}

/** The properties of a section; an unknown code throws. */
export function sectionOf(section: WholeRail['section']): PlanSection {
  if (typeof section === 'string') {
    const row = SECTIONS.find(({ id }) => id === section)
    if (!row) throw new RangeError(`no section ${section}`)
    return { ...row, properties: sectionProperties(rectanglesOf(row)) }
  }
  const rectangles =
    'rectangles' in section
      ? section.rectangles.map(({ width: widthMm, height: heightMm }) => ({ widthMm, heightMm }))
      : rectanglesOf({
          heightMm: section.height,
          headWidthMm: section.headWidth,
          footWidthMm: section.footWidth,
          webThicknessMm: section.webThickness,
          headDepthMm: section.headDepth,
          footDepthMm: section.footDepth,
        })
  const properties = sectionProperties(rectangles)
  const heightMm = 'rectangles' in section ? properties.heightMm : section.height
  const name = `Own section, ${formatMm(heightMm, 4)} high`
  return { id: 'custom', name, heightMm, headWidthMm: rectangles.at(-1)!.widthMm, properties }
}

/** The properties of a metal; an unknown name or temper throws. */
export function metalOf({ material: named, temper }: Pick<WholeRail, 'material' | 'temper'>): PlanMetal {
  if (typeof named !== 'string')
    return {
      id: 'own',
      name: 'Own metal',
      temper: null,
      tempers: [],
      nominal: metalOfNumbers(named),
      densityKgM3: named.densityKgM3,
      expansionPerK: named.expansionPerK,
      resistivityOhmM: named.resistivityOhmM,
    }
  const material = MATERIALS.find(({ id }) => id === named)
  if (!material) throw new RangeError(`no material ${named}`)
  const row = material.tempers.find(({ id }) => id === (temper ?? material.usualTemper))
  if (!row) throw new RangeError(`no temper ${temper} of ${material.id}`)
  return {
    id: material.id,
    name: material.name,
    temper,
    tempers: material.tempers,
    nominal: metalOfTemper(row),
    densityKgM3: row.densityKgM3,
    expansionPerK: row.expansionPerK,
    resistivityOhmM: row.resistivityOhmM,
  }
}

const MPA_PER_GPA = 1000

/** A metal given by its numbers, in the units of bending. */
export function metalOfNumbers({
  youngsModulusGpa,
  yieldMpa,
  hardening,
  elongationPct = null,
}: Pick<CustomMetal, 'youngsModulusGpa' | 'yieldMpa' | 'hardening'> & {
  readonly elongationPct?: number | null | undefined
}): Metal {
  return {
    youngsModulusMpa: youngsModulusGpa * MPA_PER_GPA,
    yieldMpa,
    hardening:
      hardening.model === 'linear'
        ? { model: 'linear', tangentModulusMpa: hardening.tangentModulusGpa * MPA_PER_GPA }
        : hardening,
    elongationPct,
  }
}
