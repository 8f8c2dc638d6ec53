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
  part,
  text,
  word,
} from '../plan/fields/answer.ts'
import { TURNS } from '../plan/rows/track.ts'
import { RAIL_OF_TURNOUT } from '../track/turnout/rail-of-turnout.ts'

export const BEND_MARK = component(
  'BendMark',
  'Where on a piece a bend begins and ends: fromMm and toMm from the start of the finished piece, markFromMm and markToMm from the sawn end, which is trimmed after bending.',
  {
    fromMm: length({ title: 'Bend starts at' }),
    toMm: length({ title: 'Bend ends at' }),
    markFromMm: length({
      says: 'Where the bend begins, from the end where the piece is sawn, mm: fromMm + trimStartMm.',
      title: 'Mark for the start of the bend, from the sawn end',
    }),
    markToMm: length({
      says: 'Where the bend ends, from the end where the piece is sawn, mm.',
      title: 'Mark for the end of the bend, from the sawn end',
    }),
    radiusMm: nullable(
      length({
        says: 'Radius of the middle line of the rail, mm; null along an easement, where it changes from startRadiusMm to endRadiusMm.',
        title: 'Radius',
      }),
    ),
    startRadiusMm: optional(nullable(length({ says: 'Null where it is straight.', title: 'Radius at its start' }))),
    endRadiusMm: optional(nullable(length({ says: 'Null where it is straight.', title: 'Radius at its end' }))),
    turn: word(TURNS, { title: 'Turn' }),
  },
)

export type BendMark = Answer<typeof BEND_MARK>

export const CUT_PIECE = component('CutPiece', 'A piece of rail cut from a stick.', {
  track: text({ title: 'Track' }),
  rail: word(TURNS, { title: 'Rail' }),
  turnout: optional(
    part(
      RAIL_OF_TURNOUT,
      'Only of a rail of a turnout that is built by hand: fromMm runs along that rail, from its end nearer the points, and rail is its side of its leg, seen from the points.',
    ),
  ),
  fromMm: length({ says: 'Distance along the rail from its start, mm.', title: 'Starts along the rail at' }),
  sawLengthMm: length({
    says: 'Length to saw, mm: trimStartMm + lengthMm + trimEndMm.',
    title: 'Saw to',
  }),
  lengthMm: length({
    says: 'Length as laid, mm: what the piece is trimmed to after bending.',
    title: 'Length as laid',
  }),
  trimStartMm: length({
    says: 'Length to cut off the start of the piece after bending, mm.',
    title: 'Trim at the start',
  }),
  trimEndMm: length({ says: 'Length to cut off the end of the piece after bending, mm.', title: 'Trim at the end' }),
  trimMm: length({
    says: 'Length to cut off this piece after bending, mm: trimStartMm + trimEndMm; included in the trimMm of its stick.',
    title: 'Trim, cut off after bending',
  }),
  bends: list(BEND_MARK),
})

export type CutPiece = Answer<typeof CUT_PIECE>

export const CUT_STICK = component(
  'CutStick',
  'A stick and its cuts. Its length = sawLengthMm of its pieces + kerf + offcut.',
  {
    lengthMm: length({ title: 'Length of the stick' }),
    fromStock: flag(),
    kerfMm: length({ title: 'Saw cuts of the stick' }),
    trimMm: length('Length cut off bent pieces, mm: their straight ends, or the creep of assembled track.'),
    offcutMm: length({ title: 'Left over from the stick' }),
    pieces: list(CUT_PIECE),
  },
)

export type CutStick = Answer<typeof CUT_STICK>

export const CUTTING = component('Cutting', 'How to cut the rails from sticks.', {
  sticks: list(CUT_STICK),
  sticksUsed: count(),
  sticksLowerBound: count('No cut plan takes fewer sticks.'),
  wasteMm: length('All sticks less all pieces as laid, mm: trim, kerf and offcuts.'),
  reusableMm: length(),
  cost: nullable(money('Cost of the sticks and joiners to buy, in whole packs; null if sticks to buy have no price.')),
  costLowerBound: nullable(money('No cut plan of these rails costs less.')),
  provenOptimal: flag('True if no cut plan is cheaper or, where sticks have no price, buys less rail.'),
})

export type Cutting = Answer<typeof CUTTING>
