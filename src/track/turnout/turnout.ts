import { exceeds } from '../../measure/counting.ts'
import { bothCurved } from './forms/both-curved-turnout.ts'
import { curvedFrog } from './forms/curved-frog.ts'
import { measuredTurnout } from './forms/measured.ts'
import { straightFrog } from './forms/straight-frog.ts'
import { mirrored } from './leg.ts'
import type { SizeFault, TurnoutGeometry, TurnoutResult, TurnoutSize } from './types.ts'

/**
 * A turnout by what is said of its size, or every contradiction in it. Left-hand turnouts and wyes are worked out; a
 * right-hand one is the mirror image of a left-hand one.
 */
export function turnoutOf(size: TurnoutSize, gaugeMm: number): TurnoutResult {
  const faults = sizeFaults(size)
  if (faults.length > 0) return { ok: false, faults }
  const result = inForm(size, gaugeMm)
  if (!result.ok) return result
  const { turnout } = result
  const { leadMm, legs } = turnout
  const reachMm = Math.min(legs.through.end.xMm, legs.diverging.end.xMm)
  // Two curves to one side part so slowly that the frog may lie in the track behind the turnout.
  if (size.form !== 'both-curved' && exceeds(leadMm, reachMm))
    return { ok: false, faults: [endsBeforeFrog(size, leadMm)] }
  return size.hand === 'right' ? { ok: true, turnout: rightHand(turnout) } : result
}

function inForm(size: TurnoutSize, gaugeMm: number): TurnoutResult {
  if (size.measured) return measuredTurnout(size.measured, gaugeMm)
  if (size.form === 'both-curved') return bothCurved(size, gaugeMm)
  return size.form === 'curved-frog' ? curvedFrog(size, gaugeMm) : straightFrog(size, gaugeMm)
}

function endsBeforeFrog({ length, angle, measured }: TurnoutSize, leadMm: number): SizeFault {
  const field = measured ? 'measured' : length != null ? 'length' : angle != null ? 'angle' : 'number'
  return {
    field,
    code: 'contradictory',
    detail: `the turnout would end before the point of its frog, ${leadMm.toFixed(1)} mm from the points`,
    hint: 'make it longer, or its legs diverge more',
  }
}

/** Which fields go together, before anything is worked out. */
function sizeFaults(size: TurnoutSize): SizeFault[] {
  const faults: SizeFault[] = []
  const has = (field: keyof TurnoutSize) => size[field] != null
  const refuse = (field: SizeFault['field'], code: SizeFault['code'], detail: string, hint: string) =>
    faults.push({ field, code, detail, hint })
  const form = size.form ?? 'straight-frog'
  if (size.measured) {
    for (const field of MEANT_BY_MEASURE)
      if (has(field)) refuse(field, 'contradictory', 'a turnout as measured has its size already', 'leave it out')
    if (size.hand === 'wye') refuse('measured', 'contradictory', 'a wye has no straight leg to measure from', WYE_HINT)
    return faults
  }
  if (form === 'both-curved') {
    for (const field of ['outerRadius', 'radius', 'angle'] as const)
      if (!has(field))
        refuse(field, 'missing', `both-curved needs ${field}`, 'give outerRadius, radius and angle together')
    if (has('number')) refuse('number', 'contradictory', 'both-curved is given by its radii', 'leave number out')
    if (size.hand === 'wye')
      refuse('form', 'contradictory', 'the legs of a wye curve to both sides', 'give hand left or right')
  } else if (has('outerRadius'))
    refuse(
      'outerRadius',
      'contradictory',
      `it has no effect with form ${form}`,
      'leave it out, or give form both-curved',
    )
  if (form === 'curved-frog' && !has('number') && !has('radius'))
    refuse('radius', 'missing', 'a curved frog needs its radius or its number', 'such as "radius": "8 ft"')
  if (form === 'curved-frog' && has('number') && has('radius'))
    refuse('radius', 'contradictory', 'the number of a curved frog gives its radius', 'keep one of number and radius')
  if (form !== 'straight-frog' && (size.toeLength ?? 0) > 0)
    refuse('toeLength', 'contradictory', 'only a straight frog has a straight toe', 'leave it out')
  if (form === 'straight-frog' && has('radius') && has('toeLength'))
    refuse('radius', 'contradictory', 'the toe length and the frog give the radius', 'keep one of radius and toeLength')
  if (form === 'straight-frog' && !has('number') && !has('angle'))
    refuse('number', 'missing', 'a straight frog needs its number or its angle', 'such as "number": 6')
  faults.push(...heelFaults(size))
  return faults
}

const MEANT_BY_MEASURE = [
  'radius',
  'outerRadius',
  'heelSpread',
  'heelAngle',
  'pointLength',
  'toeLength',
  'length',
] as const
const WYE_HINT = 'give its number, or its radius and angle'

/** Two of the three say how straight switch rails lie; one alone says nothing. */
function heelFaults(size: TurnoutSize): SizeFault[] {
  const fields = ['heelSpread', 'heelAngle', 'pointLength'] as const
  const given = fields.filter((field) => (size[field] ?? 0) > 0)
  if (size.form === 'both-curved')
    return given.map((field) => ({
      field,
      code: 'contradictory',
      detail: 'both legs of this form curve from the points on',
      hint: 'leave it out',
    }))
  if (given.length !== 1) return []
  return [
    {
      field: given[0]!,
      code: 'missing',
      detail: `${given[0]} alone does not say how the switch rails lie`,
      hint: 'give two of heelSpread, heelAngle and pointLength, or none for a curve that begins at the points',
    },
  ]
}

function rightHand(turnout: TurnoutGeometry): TurnoutGeometry {
  const { frog, legs } = turnout
  return {
    ...turnout,
    frog: { xMm: frog.xMm, yMm: -frog.yMm },
    legs: { through: mirrored(legs.through), diverging: mirrored(legs.diverging) },
  }
}
