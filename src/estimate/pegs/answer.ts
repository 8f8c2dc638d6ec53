import { type Answer, component, count, length, nullable, text, word } from '../../plan/fields/answer.ts'
import { PEG_OUT } from '../../survey/answer.ts'

export const PLACED_PEG = component('PlacedPeg', 'A peg of the plan, where it is on the sheet.', {
  name: text({ title: 'Peg' }),
  xMm: length({ title: 'x' }),
  yMm: length({ title: 'y' }),
  errorMm: length({
    says: 'How far it may be from there, one standard deviation, mm: 0 where the plan gives x and y.',
    title: 'Error',
  }),
})

export const PEGGED_PLACE = component('PeggedPlace', 'A place of a track, to be marked from two pegs.', {
  track: text({ title: 'Track' }),
  what: word(['start', 'middle', 'end', 'leg', 'station'], {
    says: 'The start of an element, the middle of a curve, the end of the track, the end of the leg of a turnout along which the track does not run, or a station of levelsAt.',
    title: 'Place',
  }),
  element: nullable(
    count({ says: 'The element, from 0; null for the end of the track and for a station.', title: 'Element' }),
  ),
  atMm: length({ says: 'Its station; of a leg that of the points.', title: 'Station' }),
  xMm: length({ title: 'x' }),
  yMm: length({ title: 'y' }),
  elevationMm: length({ title: 'Elevation of the track' }),
  pegOut: nullable(
    PEG_OUT,
    'The distances from the two pegs that mark it best; null if no two pegs see it at an angle of 10° or more. errorMm is that of the tapes alone: the error of the pegs comes on top.',
  ),
})

export type PlacedPegAnswer = Answer<typeof PLACED_PEG>
export type PeggedPlace = Answer<typeof PEGGED_PLACE>
