import type { Open, Whole } from '../fields/field.ts'
import { choice, length, list, part, shape, text } from '../fields/kinds.ts'
import { EXTRA, POWER, ROADBED } from './ballast-power-extras.ts'
import { BENDER } from './bender.ts'
import { CAR, TRAIN } from './cars.ts'
import { EARTHWORKS, GROUND_PLACE } from './earthworks.ts'
import { CLIMATE, JOINTS } from './joints.ts'
import { LIMITS } from './limits.ts'
import { CORNER, OBSTACLE } from './obstacles.ts'
import { PLAN_PEG } from './pegs.ts'
import { RAIL } from './rail.ts'
import { STANDARDS } from './standards.ts'
import { SUPPLIES } from './supplies.ts'
import { levelStation, TRACK, type TrackInput, type WholeTrack } from './track.ts'
import { TURNOUT_TYPE } from './turnouts.ts'

const L = LIMITS

/** A whole plan. */
export const PLAN = shape(
  'Plan',
  `A plan: rail, tracks, supplies and rules. At most ${L.tracks} tracks, ${L.elements} elements in all, ${L.gradePoints} grade points per track, ${L.breaks} breaks in all, ${L.keepOut} stretches without joints per track, ${L.stickLengths} stick lengths, ${L.panels} ready-made pieces, ${L.sticks} sticks, ${L.chords} chords, ${L.cars} cars, ${L.trains} trains, ${L.obstacles} obstacles with ${L.corners} corners each and ${L.extras} extras.`,
  {
    title: text({
      component: 'Title',
      longest: 200,
      says: 'Title of the plan',
      label: 'Title',
      hint: 'printed on the sheets',
    }),
    units: choice({
      component: 'UnitsOfPlan',
      words: { metric: 'Millimetres, °C', imperial: 'Feet and inches, °F' },
      what: 'units',
      says: 'The units of the page and its sheets for this plan, of the sentences of its answers, and of its tables as CSV and workbook; both, in tables millimetres, when left out. In JSON it changes no number: lengths are mm and temperatures °C all the same',
    }),
    gauge: length({
      component: 'Gauge',
      usual: 45,
      because: 'the usual garden gauge (NEM 010)',
      says: 'Distance between the inner faces of the rail heads',
      label: 'Gauge',
      hint: 'between the rail heads',
    }),
    rail: part(RAIL, { required: true, label: 'Rail' }),
    turnoutTypes: list(TURNOUT_TYPE, {
      most: LIMITS.turnoutTypes,
      note: 'Kinds of turnout that elements use.',
      label: 'Kinds of turnout',
      entry: 'kind of turnout',
    }),
    tracks: list(TRACK, { required: true, least: 1, most: LIMITS.tracks, label: 'Tracks', entry: 'track' }),
    cars: list(CAR, {
      most: LIMITS.cars,
      note: 'Kinds of cars and engines that run on the line. The longest of them is the longest car of the standards, where those name none.',
      label: 'Cars',
      entry: 'car',
    }),
    trains: list(TRAIN, {
      most: LIMITS.trains,
      note: 'Trains that the line is for.',
      label: 'Trains',
      entry: 'train',
    }),
    obstacles: list(OBSTACLE, {
      most: LIMITS.obstacles,
      note: 'What the cars must not touch. Looked at if the plan has cars.',
      label: 'Obstacles',
      entry: 'obstacle',
    }),
    outline: list(CORNER, {
      least: 3,
      most: LIMITS.corners,
      note: 'The edge of the garden, at least three corners in order around it: tracks and their cars have to stay inside. Looked at if the plan has cars.',
      label: 'Outline of the garden',
      entry: 'corner of the outline',
    }),
    ground: list(GROUND_PLACE, {
      least: 3,
      most: LIMITS.groundPlaces,
      note: 'Measured places of the ground, such as a grid: tracks that give no ground of their own lie on the triangles between them (Delaunay), flat each, as far as they reach.',
      label: 'Measured ground',
      entry: 'measured place',
    }),
    pegs: list(PLAN_PEG, {
      most: LIMITS.planPegs,
      note: 'Pegs in the ground. Places of the tracks are then answered as distances by tape from two of them.',
      label: 'Pegs',
      entry: 'peg',
    }),
    supplies: part(SUPPLIES, { always: true, label: 'Stock and supplies' }),
    standards: part(STANDARDS, { always: true, label: 'Track standards' }),
    bender: part(BENDER, { always: true, label: 'Bending' }),
    climate: part(CLIMATE, { label: 'Temperatures' }),
    joints: part(JOINTS, { always: true, label: 'Joints' }),
    effort: choice({
      component: 'EffortName',
      words: { quick: 'Quick', thorough: 'Thorough (may take several seconds)' },
      what: 'an effort',
      usual: 'quick',
      because: 'gives a good cut plan at once',
      says: 'How long to search for the best cut plan: "quick" answers at once, "thorough" takes up to a few seconds',
      label: 'Cut plan search',
    }),
    resolution: length({
      component: 'Resolution',
      usual: 0.5,
      because: 'a steel rule read with care',
      says: 'Largest error in reading an ordinate, plus or minus',
      label: 'Ordinate reading accuracy',
      hint: 'plus or minus',
    }),
    roadbed: part(ROADBED, { label: 'Ballast' }),
    earthworks: part(EARTHWORKS, { label: 'Earthworks' }),
    power: part(POWER, { label: 'Track power' }),
    levelsAt: list(levelStation, {
      most: LIMITS.levels,
      note: 'Stations at which to answer the elevation and grade of every track that is long enough; a track may have more.',
    }),
    extras: list(EXTRA, { most: LIMITS.extras, label: 'Extra items', entry: 'extra item' }),
    chords: list(length({ label: 'Chord' }), {
      most: LIMITS.chords,
      usual: [300, 500],
      because: 'the usual chords of a bench gauge',
      shown: '300 mm and 500 mm',
      note: 'Chords to measure bends on; 300 mm and 500 mm when left out.',
      label: 'Chords for measuring bends',
      hint: 'separated by commas',
    }),
  },
)

/** A plan as it was sent, mm, degrees, °C and percent, with everything optional still open. */
export interface PlanAsSent extends Open<typeof PLAN.fields> {}
/** The same with its elements worked out, as far as they were left to be fitted (`fitPlan`). */
export interface PlanInput extends Omit<PlanAsSent, 'tracks'> {
  readonly tracks: readonly TrackInput[]
}
/** A plan with nothing left open: a usual value, what follows from the rest, or null. */
export interface WholePlan extends Omit<Whole<typeof PLAN.fields>, 'tracks'> {
  readonly tracks: readonly WholeTrack[]
}
export type Effort = WholePlan['effort']
