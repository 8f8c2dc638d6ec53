import { type Answer, component, count, length, list, number, object, word } from '../../plan/fields/answer.ts'

export const EARTH_STRETCH = component(
  'EarthStretch',
  'A cutting or an embankment, from where the formation meets the ground to where it meets it again.',
  {
    kind: word(['cut', 'fill'], { title: 'Cut or fill' }),
    fromMm: length({ title: 'From' }),
    toMm: length({ title: 'To' }),
    volumeL: number({ says: 'In place, as it lies in the ground, L.', title: 'Volume in place (L)' }),
    barrows: count({ says: 'Barrow loads, with the swell of dug soil, rounded up.', title: 'Barrow loads' }),
    greatestMm: length({
      says: 'Greatest depth of the cutting, or height of the embankment, on the centre line: what a wall would have to retain.',
      title: 'Greatest depth or height',
    }),
    greatestAtMm: length({ says: 'Station of it.', title: 'Greatest at' }),
    widestMm: length({ says: 'Width at the surface of the ground there, with its slopes.', title: 'Widest' }),
  },
)

export const EARTHWORKS = component(
  'Earthworks',
  'Cut and fill of a track, from the first point of its ground to the last. Cross-sections are level; volumes are in place, and exact for straight ground between the points.',
  {
    formation: object({
      widthMm: length(),
      depthMm: length('Below the elevations of the track, mm.'),
      cutSlope: number('Run over rise.'),
      fillSlope: number('Run over rise.'),
    }),
    ground: list(object({ atMm: length(), elevationMm: length() })),
    stretches: list(EARTH_STRETCH),
    cutL: number(),
    fillL: number(),
    cutBarrows: count(),
    fillBarrows: count(),
    balance: object({
      shiftMm: length(
        'How much the whole profile would have to be raised for the cuttings to fill the embankments, soil in place; negative: lowered, mm.',
      ),
      volumeL: number('Cut, and fill, of the profile so shifted, L.'),
    }),
  },
)

export type EarthworksAnswer = Answer<typeof EARTHWORKS>
export type EarthStretch = Answer<typeof EARTH_STRETCH>
