import {
  type Answer,
  component,
  count,
  flag,
  length,
  list,
  money,
  nullable,
  optional,
  text,
  word,
} from '../plan/fields/answer.ts'
import { TURNS } from '../plan/rows/track.ts'

export const BEND_MARK = component('BendMark', "Where on a piece a bend begins and ends, from the piece's own start.", {
  fromMm: length({ title: 'Bend starts at' }),
  toMm: length({ title: 'Bend ends at' }),
  radiusMm: nullable(
    length({
      says: "Of the rail's line; null along an easement, where it runs from startRadiusMm to endRadiusMm.",
      title: 'Radius',
    }),
  ),
  startRadiusMm: optional(nullable(length({ says: 'Null where it is straight.', title: 'Radius at its start' }))),
  endRadiusMm: optional(nullable(length({ says: 'Null where it is straight.', title: 'Radius at its end' }))),
  turn: word(TURNS, { title: 'Turn' }),
})

export type BendMark = Answer<typeof BEND_MARK>

export const CUT_PIECE = component('CutPiece', 'A piece of rail, cut from a stick.', {
  track: text({ title: 'Track' }),
  rail: word(TURNS, { title: 'Rail' }),
  fromMm: length({ says: 'Along that rail from its own start.', title: 'Starts along the rail at' }),
  lengthMm: length({ says: 'As it is laid; it is sawn longer by its trim.', title: 'Length as laid' }),
  trimMm: length({
    says: 'Cut off this piece once it is bent; those of the pieces of a stick add up to its trimMm.',
    title: 'Trim, cut off after bending',
  }),
  bends: list(BEND_MARK),
})

export type CutPiece = Answer<typeof CUT_PIECE>

export const CUT_STICK = component('CutStick', 'A stick as it is cut: pieces + trim + kerf + offcut.', {
  lengthMm: length({ title: 'Length of the stick' }),
  fromStock: flag(),
  kerfMm: length({ title: 'Saw cuts of the stick' }),
  trimMm: length('Cut off bent pieces: their straight ends, or what assembled track creeps.'),
  offcutMm: length({ title: 'Left over from the stick' }),
  pieces: list(CUT_PIECE),
})

export type CutStick = Answer<typeof CUT_STICK>

export const CUTTING = component('Cutting', 'How the rails are cut from sticks.', {
  sticks: list(CUT_STICK),
  sticksUsed: count(),
  sticksLowerBound: count('No plan can use fewer.'),
  wasteMm: length(),
  reusableMm: length(),
  cost: nullable(
    money('What the sticks and joiners bought for it cost, in whole packs; null where sticks to buy have no price.'),
  ),
  costLowerBound: nullable(money('No cut plan of these rails costs less.')),
  provenOptimal: flag('No cut plan is cheaper; where sticks have no price, none buys less rail.'),
})

export type Cutting = Answer<typeof CUTTING>
