import { type Answer, component, count, type Fixed, list, moment } from '../../plan/fields/answer.ts'
import { RESERVATION, type Shed } from '../../projects/store.ts'
import { STOCK } from '../../shed/stock.ts'

export const SHED = component('Shed', 'What lies in the shed.', {
  revision: count({ least: 1, says: 'One more with each change.' }),
  updatedAt: moment(),
  ...STOCK.fields,
})

export const RESERVATIONS = component('Reservations', 'Who has what of the shed, the oldest project first.', {
  items: list(RESERVATION),
})

export function shedAnswer({ revision, updatedAt, stock }: Shed): Fixed<Answer<typeof SHED>> {
  return { revision, updatedAt, ...stock }
}
