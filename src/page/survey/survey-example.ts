import type { SurveyFields } from './read-survey-form.ts'

/** An invented garden. */
export const SURVEY_EXAMPLE: SurveyFields = {
  pegs: 'house, 0, 0, 0\nfence post, 9 m, 0\nshed, 9 m, 7 m\n',
  distances: `house, apple tree, 5205
fence post, apple tree, 7095
shed, apple tree, 6480
house, pond, 6505
fence post, pond, 3900
apple tree, pond, 3225
house, terrace, 6995, slope
shed, terrace, 7505
`,
  levels: `house, fence post, 148
fence post, pond, -90
pond, apple tree, 155
house, apple tree, 210
apple tree, terrace, 455
`,
  lines: 'along the path: house, terrace\n4 ft, 112\n4 ft, 95\n4 ft, 121\n4 ft, 108\n4 ft, 118\n3 ft, 115\n',
  points: 'terrace, left\n',
  tapeError: '',
  levelError: '',
}
