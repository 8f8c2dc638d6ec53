import { MATERIALS } from '../../catalogue/materials.ts'
import { SECTIONS } from '../../catalogue/sections.ts'

/* What a cell of the workbook offers to choose from. */

export const SECTION_CODES = SECTIONS.map(({ id }) => id)
export const METALS = MATERIALS.map(({ id }) => id)
export const TEMPERS = [...new Set(MATERIALS.flatMap(({ tempers }) => tempers.map(({ id }) => id)))]
export const KINDS = ['tangent', 'easement', 'arc']
export const TURNS = ['left', 'right']
