import { query } from '../request/query.ts'
import { TURNOUT_PARAMETERS } from '../request/turnouts-query.ts'
import { answerTurnout } from '../turnouts-answer.ts'
import { type Cell, cell, length, refuse } from './cell.ts'
import { ERRORS } from './errors-option.ts'
import { UNITS } from './units-option.ts'

const QUERY = query({ ...TURNOUT_PARAMETERS, units: UNITS, errors: ERRORS })

const ASSUMED = 'a gauge of 45 mm, half-cot numbering, a straight frog, and a curve that begins at the points'

function turnoutCell(name: string, figure: 'leadMm' | 'closureRadiusMm', summary: string, example: string): Cell {
  return cell({
    name,
    summary,
    description: `The same as ${figure} of GET /v1/turnouts, to the theoretical point of the frog.`,
    assumes: ASSUMED,
    query: QUERY,
    searches: false,
    example,
    compute: ({ units, errors: _, refresh: __, ...request }) => {
      const answer = answerTurnout(request)
      return answer.ok ? length(answer.turnout[figure], units) : refuse(...answer.faults)
    },
  })
}

export const TURNOUT_CELLS: readonly Cell[] = [
  turnoutCell(
    'turnout-radius',
    'closureRadiusMm',
    'Radius of the closure of a turnout, on its centre line, mm',
    'number=6&heelSpread=6.5&heelAngle=2.5&pointLength=150&toeLength=60',
  ),
  turnoutCell('turnout-lead', 'leadMm', 'Lead of a turnout, from the points to the point of the frog, mm', 'number=6'),
]
