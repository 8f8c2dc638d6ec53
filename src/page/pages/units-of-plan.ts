import { unitsIn } from '../in-units.ts'
import { type LengthsIn, readLengthsIn } from '../show-length.ts'

/** The units to show a saved plan in: those asked for in the address, or those it was saved with. */
export function unitsOf(plan: { readonly units?: unknown }, asked?: string): LengthsIn {
  if (asked !== undefined) return readLengthsIn(asked)
  return plan.units === 'imperial' ? 'feet' : plan.units === 'metric' ? 'metric' : 'both'
}

/** A plan in the units it is shown in, so that the sentences about it are in them as well. */
export function inUnitsOf<P extends Readonly<Record<string, unknown>>>(plan: P, lengthsIn: LengthsIn): P {
  const { units: _, ...rest } = plan
  const units = unitsIn(lengthsIn)
  return (units === undefined ? rest : { ...rest, units }) as unknown as P
}
