import { choiceParameter } from '../request/query.ts'

/** The unit of a cell that is a length, as `units` of a table. */
export const UNITS = choiceParameter('CellUnits', ['mm', 'in'], 'a unit of length')
  .optional()
  .openapi({ param: { description: 'Unit of the number: millimetres, or decimal inches. mm when left out.' } })
