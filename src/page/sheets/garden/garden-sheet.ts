import { type Html, html } from '../../html.ts'
import { careCard } from '../care.ts'
import { part } from '../part.ts'
import { layingOrder } from '../saw/ready-made.ts'
import type { SheetContext } from '../sheet.ts'
import { powerTables, roadbedTables } from './bed-and-power.ts'
import { jointTables } from './joint-tables.ts'

/** Where everything goes in the garden. */
export function gardenSheet({ worked, lengthsIn }: SheetContext): Html {
  const { estimate } = worked
  const { roadbed, power, readyMade, cautions } = estimate
  const order = readyMade && layingOrder(estimate, readyMade, lengthsIn)
  return html`${part('gaps', 'Joints and gaps', jointTables(worked, lengthsIn))}
${order && part('ready-made', 'Ready-made track', order)}
${
  (roadbed || power) &&
  part('ballast-power', 'Ballast and power', [
    ...(roadbed ? [roadbedTables(roadbed, lengthsIn)] : []),
    ...(power ? [powerTables(power, lengthsIn)] : []),
  ])
}
${careCard('garden', cautions)}`
}
