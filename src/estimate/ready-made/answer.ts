import {
  type Answer,
  component,
  count,
  flag,
  length,
  list,
  money,
  nullable,
  number,
  object,
  text,
  word,
} from '../../plan/fields/answer.ts'

const PANEL = count('The index of its entry in supplies.panels.')

const SIZE_FIELDS = {
  lengthMm: length({ says: 'Length along the centre line, mm.', title: 'Length' }),
  angleDeg: nullable(number({ says: 'Null for a straight piece.', title: 'Angle (°)' })),
}

export const LAID_PANEL = object({
  panel: PANEL,
  fromMm: length({ says: 'Station on the centre line, mm.', title: 'From' }),
  toMm: length({ title: 'To' }),
  ...SIZE_FIELDS,
  whole: flag('True if nothing is cut off it.'),
})

export const COVERED_STRETCH = component(
  'CoveredStretch',
  'An element, or the part of one between two breaks, that ready-made pieces cover from end to end.',
  {
    track: text({ title: 'Track' }),
    element: count({ title: 'Element' }),
    radiusMm: nullable(length({ title: 'Radius' })),
    fromMm: length('Station on the centre line, mm.'),
    toMm: length(),
    leftOpenMm: length('By how much whole pieces are too short, left open in the joints, mm.'),
    pieces: list(LAID_PANEL),
  },
)

export type CoveredStretchAnswer = Answer<typeof COVERED_STRETCH>

export const USED_PANEL = component(
  'UsedPanel',
  'A ready-made piece that is used. Its length = pieces + kerf + offcut.',
  {
    panel: PANEL,
    name: text({ title: 'Description' }),
    lengthMm: length(),
    fromStock: flag(),
    kerfMm: length(),
    offcutMm: length(),
    pieces: list(object({ track: text(), element: count(), ...SIZE_FIELDS })),
  },
)

export type UsedPanelAnswer = Answer<typeof USED_PANEL>

export const READY_MADE = component('ReadyMadeTrack', 'The part of the track that is made of ready-made pieces.', {
  choice: word(['cheapest', 'always', 'never']),
  cost: nullable(
    money('Cost of rail, ready-made pieces, joiners, ties and fasteners; null if something to buy has no price.'),
  ),
  looseCost: nullable(money('The same without ready-made pieces; null also if there is too little loose rail.')),
  stretches: list(COVERED_STRETCH),
  panels: list(USED_PANEL, 'One entry for each piece that is used.'),
  loose: list(object({ track: text(), element: count(), reason: text() }), 'The elements made of loose rail, and why.'),
})

export type ReadyMadeAnswer = Answer<typeof READY_MADE>
