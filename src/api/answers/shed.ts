import { meant } from '../../measure/meant.ts'
import { type Answer, component, count, type Fixed, list, moment } from '../../plan/fields/answer.ts'
import { RESERVATION, type Shed } from '../../projects/store.ts'
import { STOCK } from '../../shed/stock.ts'

export const SHED = component('Shed', 'The stock in the shed.', {
  revision: count({ least: 1, says: '1 at first; each change adds 1.' }),
  updatedAt: moment(),
  ...STOCK.fields,
})

export const RESERVATIONS = component('Reservations', 'What is reserved for each project, the oldest project first.', {
  items: list(RESERVATION),
})

export function shedAnswer({ revision, updatedAt, stock }: Shed): Fixed<Answer<typeof SHED>> {
  return { revision, updatedAt, ...meant(stock) }
}
