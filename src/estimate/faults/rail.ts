import { testBendFaults } from '../../bending/calibration/calibration.ts'
import { metalFaults, metalOfTemper } from '../../bending/metal.ts'
import { benderFaults } from '../../bending/roller/roller-bender.ts'
import { rectangleFaults } from '../../bending/section-properties.ts'
import { MATERIALS } from '../../catalogue/materials.ts'
import { SECTIONS } from '../../catalogue/sections.ts'
import { exceeds } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { completeSection } from '../../plan/completing/rail.ts'
import { SILENT } from '../../plan/fields/complete.ts'
import type { RailDraft } from '../../plan/reading/draft.ts'
import { type BenderInput, OF_ROLLERS, ROLLER_FIELDS } from '../../plan/rows/bender.ts'
import type { CustomSection } from '../../plan/rows/rail.ts'
import { rollerOf } from '../bender.ts'
import { metalOfNumbers, metalOf as metalWorkedOut, sectionOf as sectionWorkedOut } from '../rail.ts'

/** Contradictions in a rail: a temper of another metal, parts that do not fit, impossible test bends. */
export function railFaults(rail: RailDraft | undefined, bender: BenderInput | undefined): Fault[] {
  if (!rail) return []
  const ofSection = sectionFaults(rail.section)
  const ofMetal = materialFaults(rail)
  const metal = ofMetal.length === 0 ? metalOf(rail) : null
  const known = {
    ...(ofSection.length === 0 && sectionOf(rail)),
    ...(metal && { metal: metal.nominal }),
    ...(benderInputFaults(bender).length === 0 &&
      !rail.unread?.includes('bender') && { bender: rollerOf(bender ?? {}) }),
  }
  const ofTests = testBendFaults(rail.calibration ?? [], known, metal?.likely)
  return [...ofSection, ...ofMetal, ...placed(ofTests, ['rail', 'calibration'])]
}

/** What is known of the section; nothing for one that is not in the catalogue. */
function sectionOf({ section }: RailDraft) {
  if (section === undefined || (typeof section === 'string' && !SECTIONS.some(({ id }) => id === section))) return {}
  return { section: sectionWorkedOut(completeSection(section, SILENT)).properties }
}

/** The metal, null where nothing is known of it, and which metals it may be: its temper only, or any. */
function metalOf({ material, temper, unread }: RailDraft) {
  if (material === undefined || unread?.includes('metal')) return null
  if (typeof material === 'string' && !materialOf(material)) return null
  if (typeof material !== 'string') {
    const nominal = metalOfNumbers(material)
    return { nominal, likely: [nominal] }
  }
  const { nominal, tempers } = metalWorkedOut({ material, temper: temper ?? null })
  return { nominal, likely: temper === undefined ? tempers.map(metalOfTemper) : [nominal] }
}

function materialOf(name: string) {
  return MATERIALS.find(({ id }) => id === name)
}

function sectionFaults(section: RailDraft['section']): Fault[] {
  if (typeof section !== 'object') return []
  return 'rectangles' in section
    ? placed(rectangleFaults(section.rectangles.map(({ width, height }) => ({ widthMm: width, heightMm: height }))), [
        'rail',
        'section',
      ])
    : caliperFaults(section)
}

function materialFaults({ material, temper }: RailDraft): Fault[] {
  if (material === undefined) return []
  if (typeof material === 'object') {
    const faults = placed(metalFaults(metalOfNumbers(material)), ['rail', 'material'])
    if (temper !== undefined)
      faults.push({
        path: ['rail', 'temper'],
        code: 'contradictory',
        detail: 'a metal given by its own numbers has no temper',
        hint: 'leave out temper',
      })
    return faults
  }
  const row = materialOf(material)
  if (!row || temper === undefined || row.tempers.some(({ id }) => id === temper)) return []
  return [
    {
      path: ['rail', 'temper'],
      code: 'unknown-temper',
      detail: `${row.name} has no temper "${temper}" in the catalogue`,
      hint: `use one of ${row.tempers.map(({ id }) => id).join(', ')}, or leave it out`,
    },
  ]
}

/** A section's parts must fit together: web within head and foot, head and foot within the height. */
function caliperFaults(section: CustomSection): Fault[] {
  const headDepthMm = section.headDepth ?? DEFAULT_DEPTH
  const footDepthMm = section.footDepth ?? DEFAULT_DEPTH
  const faults: Fault[] = []
  for (const part of ['headWidth', 'footWidth'] as const)
    if (exceeds(section.webThickness, section[part]))
      faults.push({
        path: ['rail', 'section', 'webThickness'],
        code: 'contradictory',
        detail: `the web (${formatMm(section.webThickness, 3)}) is wider than the ${part === 'headWidth' ? 'head' : 'foot'}`,
        hint: 'measure the web half-way up the rail',
      })
  if (!exceeds(section.height, headDepthMm + footDepthMm))
    faults.push({
      path: ['rail', 'section', section.headDepth === undefined ? 'footDepth' : 'headDepth'],
      code: 'contradictory',
      detail: 'head and foot together take up the whole height of the rail; nothing is left for the web',
      hint: 'headDepth and footDepth are the thicknesses of head and foot, each well under half the height',
    })
  return faults
}

/** An omitted depth is filled in by proportion and always fits. */
const DEFAULT_DEPTH = 0

/** A roller bender needs four figures together; its other fields mean nothing without them. */
export function benderInputFaults(bender: BenderInput | undefined): Fault[] {
  if (!bender) return []
  const given = ROLLER_FIELDS.filter((field) => bender[field] !== undefined)
  if (given.length > 0 && given.length < ROLLER_FIELDS.length)
    return ROLLER_FIELDS.filter((field) => !given.includes(field)).map((field) => ({
      path: ['bender', field],
      code: 'missing',
      detail: `${given.join(', ')} describe a roller bender, but ${field} is not given`,
      hint: `a roller bender needs ${ROLLER_FIELDS.join(', ')} together`,
    }))
  const roller = rollerOf(bender)
  if (roller) return placed(benderFaults(roller), ['bender'])
  return OF_ROLLERS.filter((field) => bender[field] !== undefined).map((field) => ({
    path: ['bender', field],
    code: 'contradictory',
    detail: `${field} belongs to a roller bender, and none is given`,
    hint: `give ${ROLLER_FIELDS.join(', ')} too`,
  }))
}

function placed(faults: readonly Fault[], at: Fault['path']): Fault[] {
  return faults.map((fault) => ({ ...fault, path: [...at, ...fault.path] }))
}
