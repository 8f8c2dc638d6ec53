import { component, count, text } from '../../plan/fields/answer.ts'

/** Which rail of which turnout something belongs to. */
export const RAIL_OF_TURNOUT = component('RailOfTurnout', 'A rail of a turnout that is built by hand.', {
  name: text({ title: 'Turnout' }),
  rail: count({ says: 'Its place among the rails of the turnout, from 0.', title: 'Rail of the turnout' }),
})
