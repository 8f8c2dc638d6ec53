import { toRadians } from '../measure/angle.ts'
import { type Answer, component, length, number, word } from '../plan/fields/answer.ts'
import { USUAL } from '../plan/usual.ts'
import { TURNOUT_FIGURES, turnoutFigures } from '../track/turnout/figures.ts'
import { frogNumber, NUMBERINGS } from '../track/turnout/frog.ts'
import { turnoutOf } from '../track/turnout/turnout.ts'
import type { SizeFault, TurnoutSize } from '../track/turnout/types.ts'
import type { ParameterFault } from './problem.ts'
import type { TurnoutsRequest } from './request/turnouts-query.ts'

export const ONE_TURNOUT = component('OneTurnout', 'One turnout alone.', {
  gaugeMm: length(),
  numbering: word(NUMBERINGS, 'How frogNumber counts.'),
  frogNumber: number('Number of the frog in that numbering.'),
  ...TURNOUT_FIGURES.fields,
})

type OneTurnout = Answer<typeof ONE_TURNOUT>

type TurnoutAnswer =
  | { readonly ok: true; readonly turnout: OneTurnout }
  | { readonly ok: false; readonly faults: readonly ParameterFault[] }

/** The figures of one turnout, or all faults of the parameters. */
export function answerTurnout({ frogAngle, gauge: gaugeMm = USUAL.gauge, ...request }: TurnoutsRequest): TurnoutAnswer {
  const { numbering = 'half-cot', form = 'straight-frog', hand = 'left' } = request
  const number = frogAngle === undefined ? request.number : frogNumber(toRadians(frogAngle), numbering)
  const size: TurnoutSize = { ...request, hand, form, numbering, number }
  const result = turnoutOf(size, gaugeMm)
  const ofSize = result.ok ? [] : result.faults.map((fault) => asParameter(fault, frogAngle !== undefined))
  const faults = [...combinationFaults({ ...request, frogAngle }), ...ofSize]
  if (faults.length > 0 || !result.ok) return { ok: false, faults }
  const { frogRad } = result.turnout
  const figures = turnoutFigures(result.turnout, gaugeMm)
  return { ok: true, turnout: { gaugeMm, numbering, frogNumber: frogNumber(frogRad, numbering), ...figures } }
}

function combinationFaults({ number, frogAngle, angle, form }: TurnoutsRequest): ParameterFault[] {
  const faults: ParameterFault[] = []
  const refuse = (parameter: string, detail: string, hint: string) =>
    faults.push({ parameter, code: 'contradictory', detail, hint })
  if (number !== undefined && frogAngle !== undefined)
    refuse('frogAngle', 'both number and frogAngle are given', 'keep one of them')
  if (angle !== undefined && (form ?? 'straight-frog') === 'straight-frog')
    refuse('angle', 'the leg of a straight frog diverges by the angle of the frog', 'give frogAngle or number instead')
  else if (angle !== undefined && number !== undefined)
    refuse('angle', 'both number and angle are given', 'give radius with angle, or number with length')
  return faults
}

function asParameter({ field, code, detail, hint }: SizeFault, byAngle: boolean): ParameterFault {
  if (field === 'number' && code === 'missing')
    return { parameter: 'number', code, detail: 'neither number nor frogAngle is given', hint: 'such as number=6' }
  const parameter = field === 'number' && byAngle ? 'frogAngle' : field
  return { parameter, code, detail, hint: hint.replace('"radius": "8 ft"', 'radius=8ft') }
}
