/** The sizes a plan, and what else is sent, may have. Beyond them it is refused before anything in it is looked at. */
export const LIMITS = {
  tracks: 200,
  /** Of all tracks together. */
  elements: 5_000,
  /** With something that is to be fitted. */
  fittedTracks: 50,
  turnoutTypes: 100,
  cars: 20,
  trains: 20,
  /** Entries of one train, and how many cars one entry may stand for. */
  carKindsInTrain: 100,
  carsInTrain: 1_000,
  obstacles: 500,
  /** Of one obstacle. */
  corners: 200,
  /** Of one track. */
  gradePoints: 2_000,
  /** Stretches of one track with their own maximum grade. */
  gradeLimits: 100,
  /** Of one track. */
  groundPoints: 2_000,
  /** Of the ground of a whole plan. */
  groundPlaces: 500,
  /** In the ground of a plan, to mark track from. */
  planPegs: 40,
  /** Stations of one track whose elevation is wanted. */
  levels: 500,
  /** Of all tracks together. */
  breaks: 1_000,
  keepOut: 100,
  /** Lengths rail is sold in. */
  stickLengths: 20,
  /** Kinds of ready-made track. */
  panels: 40,
  /** Of a section given as a stack. */
  rectangles: 20,
  testBends: 20,
  /** Of a cut plan alone. */
  runs: 500,
  /** Sticks the rails may take, counted as if all were of the shortest. */
  sticks: 25_000,
  /** Of one setting-out. */
  pegs: 25_000,
  chords: 20,
  extras: 100,
  comparedMaterials: 8,
  /** Tracks of a yard that is worked out as a figure. */
  figureTracks: 30,
  /** Of a track that is doubled. */
  figureElements: 200,
  /** Of one check of a bend. */
  readings: 500,
  /** Of one survey: pegs and points together. */
  surveyPoints: 100,
  distances: 600,
  rises: 600,
  levelLines: 50,
  /** Of one line. */
  lineReadings: 500,
  /** Rows of each table of the shed. */
  shedRows: 500,
  /** Sticks of all kinds together in the shed, and ready-made pieces: every one may end up in one estimate. */
  stocked: 5_000,
  /** Pieces in a pack, or on hand. */
  pieces: 1_000_000,
} as const
