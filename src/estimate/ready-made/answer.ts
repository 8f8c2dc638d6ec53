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

const PANEL = count('Its place in supplies.panels.')

const SIZE_FIELDS = {
  lengthMm: length({ says: 'Along the centre line.', title: 'Length' }),
  angleDeg: nullable(number({ says: 'Null on a straight piece.', title: 'Angle (°)' })),
}

export const LAID_PANEL = object({
  panel: PANEL,
  fromMm: length({ says: 'Stations.', title: 'From' }),
  toMm: length({ title: 'To' }),
  ...SIZE_FIELDS,
  whole: flag('Nothing is cut off it.'),
})

export const COVERED_STRETCH = component(
  'CoveredStretch',
  'An element, or the part of one between two breaks, that is covered from end to end.',
  {
    track: text({ title: 'Track' }),
    element: count({ title: 'Element' }),
    radiusMm: nullable(length({ title: 'Radius' })),
    fromMm: length('Stations.'),
    toMm: length(),
    leftOpenMm: length('What whole pieces fall short of it, left open in its joints.'),
    pieces: list(LAID_PANEL),
  },
)

export type CoveredStretchAnswer = Answer<typeof COVERED_STRETCH>

export const USED_PANEL = component('UsedPanel', 'A piece that is used. Its length = pieces + kerf + offcut.', {
  panel: PANEL,
  name: text({ title: 'Description' }),
  lengthMm: length(),
  fromStock: flag(),
  kerfMm: length(),
  offcutMm: length(),
  pieces: list(object({ track: text(), element: count(), ...SIZE_FIELDS })),
})

export type UsedPanelAnswer = Answer<typeof USED_PANEL>

export const READY_MADE = component('ReadyMadeTrack', 'Track that is made of ready-made pieces.', {
  choice: word(['cheapest', 'always', 'never']),
  cost: nullable(money('Rail, pieces, joiners, ties and fasteners; null where something to buy has no price.')),
  looseCost: nullable(money('The same without ready-made pieces; null also where there is too little of it.')),
  stretches: list(COVERED_STRETCH),
  panels: list(USED_PANEL, 'One for each that is used.'),
  loose: list(object({ track: text(), element: count(), reason: text() }), 'Elements that stay loose rail, and why.'),
})

export type ReadyMadeAnswer = Answer<typeof READY_MADE>
