import { BENT_RAIL_FIELDS } from '../../bending/bends.ts'
import { BEND_FORMING } from '../../bending/forming/types.ts'
import { type Answer, component, length, list, optional, part } from '../../plan/fields/answer.ts'
import { ASSUMPTION } from '../../plan/fields/assumption.ts'

export const BENT_RAIL = component('BentRail', 'One rail of one curve.', {
  ...BENT_RAIL_FIELDS,
  forming: optional(part(BEND_FORMING, 'Only if a material is given.')),
})

/** The answer for a curve in a query. */
export const BENDS = component('Bends', 'The two rails of one curve, the outer one first.', {
  trackRadiusMm: length(),
  rails: list(BENT_RAIL),
  assumptions: list(ASSUMPTION, 'Each field is the name of a query parameter.'),
})

export type Bends = Answer<typeof BENDS>
