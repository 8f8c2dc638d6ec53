import {
  type Answer,
  component,
  count,
  length,
  list,
  nullable,
  number,
  object,
  optional,
  text,
  word,
} from '../../plan/fields/answer.ts'

export const HAUL = component(
  'Haul',
  'The hardest place of a train with its front on a track; its rear may still be on others.',
  {
    track: text({ title: 'Track' }),
    direction: word(['forward', 'backward'], {
      says: 'The way the train goes: from the start of the track to its end, or backward.',
      title: 'Direction',
    }),
    atMm: length({
      says: 'Station of the front of the train there, from the start of the track.',
      title: 'Front of the train at',
    }),
    gradePct: number({ says: 'Grade under the train, percent: the mean over its weight.', title: 'Grade (%)' }),
    curvePct: number({
      says: 'Curve resistance of the train there, as percent of its weight: so much steeper the track seems.',
      title: 'Curve resistance (%)',
    }),
    effectivePct: number({ says: 'Both together, percent.', title: 'Effective grade (%)' }),
    pullN: number({
      says: 'What the train asks for there, N, its rolling resistance included.',
      title: 'Pull needed (N)',
    }),
    spareN: number({
      says: 'What the engine has left there on dry rail, N; negative if it is not enough.',
      title: 'Spare pull (N)',
    }),
    takes: nullable(
      count({
        says: 'Cars that the engine takes over this track in damp weather, with 80 % of its pull (US Army TR 0603); beyond its own, cars like the last. Null for a train without cars.',
        title: 'Cars it takes',
      }),
    ),
    standsOn: optional(
      list(
        text(),
        'Only where not all of the train stands on that track: the tracks it stands on, from its front back. A leg of a turnout along which no track runs counts to the track of the turnout.',
      ),
    ),
  },
)

const HOLD = object({
  track: text(),
  direction: word(['forward', 'backward']),
  atMm: length('Station of the front of the train.'),
  pushN: number('How hard the train pushes downhill there, N, with nothing but its resistances to hold it.'),
})

const POWER_DRAWN = object({
  atWheelsW: number('At the wheels, at speedMPerS on its hardest place, W.'),
  drawnW: nullable(number('Drawn from rails or battery, W; null for other drives.')),
})

export const TRAIN_ANSWER = component(
  'TrainAnswer',
  'A train on the grades of the line, on every way that it can take.',
  {
    name: text({ title: 'Train' }),
    drive: word(['steam', 'track-electric', 'battery', 'diesel', 'clockwork'], { title: 'Driven by' }),
    massKg: number({ says: 'Engine and cars, kg.', title: 'Mass (kg)' }),
    lengthMm: length({ title: 'Length' }),
    cars: count({ title: 'Cars' }),
    tractiveEffortN: number({ says: 'What the engine pulls on dry rail, N.', title: 'Pull available (N)' }),
    limitedBy: word(['adhesion', 'engine'], { says: 'What holds that back.' }),
    ruling: HAUL,
    onTracks: list(HAUL, 'The hardest place of each track that is not to be lifted.'),
    takes: nullable(
      count(
        'Cars that the engine takes over every track in damp weather, with 80 % of its pull; null for a train without cars.',
      ),
    ),
    takesWhenDry: nullable(count('The same with all of its pull.')),
    holding: nullable(HOLD, 'Where it pushes hardest downhill; null if it stands by itself everywhere.'),
    holdingLimitN: number('Force at which the driven wheels slide when they alone hold the train, on dry rail, N.'),
    power: nullable(POWER_DRAWN, 'Null without a speed.'),
  },
)

export type TrainAnswer = Answer<typeof TRAIN_ANSWER>
export type HaulAnswer = Answer<typeof HAUL>

export const EFFECTIVE_STRETCH = object({
  fromMm: length({ title: 'From' }),
  toMm: length({ title: 'To' }),
  gradePct: number({
    says: 'The steeper end of it, up or down, as it is along the track: negative where it falls.',
    title: 'Grade (%)',
  }),
  curvePct: number({
    says: 'Curve resistance as a grade, where the curve is tightest, percent.',
    title: 'Curve resistance (%)',
  }),
  effectivePct: number({ says: 'Both together, for a train that climbs, percent.', title: 'Effective grade (%)' }),
})

export type EffectiveStretch = Answer<typeof EFFECTIVE_STRETCH>

export const EFFECTIVE_GRADE = component('EffectiveGrade', 'Grades of a track with the resistance of its curves.', {
  rule: word(['measured', 'wheelbase'], {
    says: 'measured: from standards.curveResistancePct. wheelbase: from gauge, the longest wheelbase and the friction of dry rail (Protopapadakis’ formula, from memory). Rules by degree of curve are not used: they do not reach garden radii.',
  }),
  curveResistanceMm: length('What, divided by the radius, is the curve resistance as a share of the weight, mm.'),
  stretches: list(EFFECTIVE_STRETCH, 'Stretches between stations where grade or curve changes.'),
  steepestPct: number('The greatest of the stretches.'),
  averagedPct: nullable(
    number('The steepest grade, up or down, averaged over the longest train, percent; null without trains.'),
  ),
  averagedEffectivePct: nullable(number('The same with the curves under the train.')),
  averagedOverMm: nullable(length('Length of the longest train, mm.')),
})

export type EffectiveGradeAnswer = Answer<typeof EFFECTIVE_GRADE>
