import { type LengthsIn, readLengthsIn } from '../show-length.ts'

/** The units to show a saved plan in: those asked for in the address, or those it was saved with. */
export function unitsOf(plan: { readonly units?: unknown }, asked: string | undefined): LengthsIn {
  if (asked !== undefined) return readLengthsIn(asked)
  return plan.units === 'imperial' ? 'feet' : plan.units === 'metric' ? 'metric' : 'both'
}

/** A plan that keeps the units it is shown in; both is what a plan without them means. */
export function inUnitsOf<P extends Readonly<Record<string, unknown>>>(plan: P, lengthsIn: LengthsIn): P {
  const { units: _, ...rest } = plan
  if (lengthsIn === 'both') return rest as unknown as P
  return { ...rest, units: lengthsIn === 'feet' ? 'imperial' : 'metric' } as unknown as P
}
