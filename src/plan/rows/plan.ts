import type { Open, Whole } from '../fields/field.ts'
import { choice, length, list, part, shape, text } from '../fields/kinds.ts'
import { BENDER } from './bender.ts'
import { CLIMATE, JOINTS } from './joints.ts'
import { LIMITS } from './limits.ts'
import { RAIL } from './rail.ts'
import { STANDARDS } from './standards.ts'
import { SUPPLIES } from './supplies.ts'
import { TRACK } from './track.ts'
import { EXTRA, POWER, ROADBED } from './way.ts'

const L = LIMITS

/** A whole plan. */
export const PLAN = shape(
  'Plan',
  `A plan: rail, tracks, supplies and rules. At most ${L.tracks} tracks, ${L.elements} elements in all, ${L.gradePoints} grade points per track, ${L.breaks} breaks in all, ${L.keepOut} stretches without joints per track, ${L.stickLengths} stick lengths, ${L.panels} ready-made pieces, ${L.sticks} sticks, ${L.chords} chords and ${L.extras} extras.`,
  {
    title: text({
      component: 'Title',
      longest: 200,
      says: 'Title of the plan',
      label: 'Title',
      hint: 'printed on the sheets',
    }),
    gauge: length({
      component: 'Gauge',
      usual: 45,
      because: 'the usual garden gauge (NEM 010)',
      says: 'Distance between the inner faces of the rail heads',
      label: 'Gauge',
      hint: 'between the heads',
    }),
    rail: part(RAIL, { required: true, label: 'Rail' }),
    tracks: list(TRACK, { required: true, least: 1, most: LIMITS.tracks, label: 'Tracks', entry: 'track' }),
    supplies: part(SUPPLIES, { always: true, label: 'What you have, and what you can buy', called: 'what you have' }),
    standards: part(STANDARDS, { always: true, label: 'Rules for your track', called: 'rules' }),
    bender: part(BENDER, { always: true, label: 'Bending' }),
    climate: part(CLIMATE, { label: 'Weather' }),
    joints: part(JOINTS, { always: true, label: 'Joints' }),
    effort: choice({
      component: 'EffortName',
      words: { quick: 'Quick, at once', thorough: 'Thorough, up to some seconds' },
      what: 'an effort',
      usual: 'quick',
      because: 'a sound cut plan at once',
      says: 'How long to search for the best cut plan: "quick" answers at once, "thorough" takes up to a few seconds',
      label: 'Looking for the best cut plan',
    }),
    resolution: length({
      component: 'Resolution',
      usual: 0.5,
      because: 'a steel rule read with care',
      says: 'Largest error in reading an ordinate, plus or minus',
      label: 'You read ordinates to',
      hint: 'may be off by this, either way',
    }),
    roadbed: part(ROADBED, { label: 'Ballast' }),
    power: part(POWER, { label: 'Current in the rails' }),
    extras: list(EXTRA, { most: LIMITS.extras, label: 'Anything else for the list', entry: 'extra' }),
    chords: list(length({ label: 'Chord' }), {
      most: LIMITS.chords,
      usual: [300, 500],
      because: 'chords a bench gauge usually has',
      shown: '300 mm and 500 mm',
      note: 'Chords to measure bends on; 300 mm and 500 mm when left out.',
      label: 'Chords you measure bends with',
      hint: 'with commas between',
    }),
  },
)

/** A plan as it was sent, mm, degrees, °C and percent, with everything optional still open. */
export type PlanInput = Open<typeof PLAN.fields>
/** A plan with nothing left open: a usual value, what follows from the rest, or null. */
export type WholePlan = Whole<typeof PLAN.fields>
export type Effort = WholePlan['effort']
