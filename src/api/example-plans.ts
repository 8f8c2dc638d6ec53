import handBend from '../../openapi/examples/bend-by-hand.json' with { type: 'json' }
import rollerBend from '../../openapi/examples/bend-in-rollers.json' with { type: 'json' }
import calibration from '../../openapi/examples/calibration-by-radii.json' with { type: 'json' }
import benchCheck from '../../openapi/examples/check-at-the-bench.json' with { type: 'json' }
import liningCheck from '../../openapi/examples/check-laid-curve.json' with { type: 'json' }
import fits from '../../openapi/examples/connection-to-fit.json' with { type: 'json' }
import curvedCrossover from '../../openapi/examples/crossover-in-a-curve.json' with { type: 'json' }
import pegs from '../../openapi/examples/curves-to-peg-out.json' with { type: 'json' }
import extension from '../../openapi/examples/extension-of-a-line.json' with { type: 'json' }
import footbridge from '../../openapi/examples/footbridge-line.json' with { type: 'json' }
import gardenSurvey from '../../openapi/examples/garden-survey.json' with { type: 'json' }
import hillside from '../../openapi/examples/hillside-with-grade.json' with { type: 'json' }
import fedLine from '../../openapi/examples/line-with-bed-and-feeders.json' with { type: 'json' }
import loopInTheSun from '../../openapi/examples/loop-in-the-sun.json' with { type: 'json' }
import materials from '../../openapi/examples/loop-in-three-metals.json' with { type: 'json' }
import readyMadeOval from '../../openapi/examples/oval-of-ready-made-track.json' with { type: 'json' }
import passingLoop from '../../openapi/examples/passing-loop.json' with { type: 'json' }
import passingSiding from '../../openapi/examples/passing-siding.json' with { type: 'json' }
import pond from '../../openapi/examples/pond-and-terrace.json' with { type: 'json' }
import quarterLoop from '../../openapi/examples/quarter-loop.json' with { type: 'json' }
import sidingToMove from '../../openapi/examples/siding-to-move.json' with { type: 'json' }
import sixRuns from '../../openapi/examples/six-runs-to-cut.json' with { type: 'json' }
import smallOval from '../../openapi/examples/small-oval.json' with { type: 'json' }
import throughABank from '../../openapi/examples/track-through-a-bank.json' with { type: 'json' }
import yard from '../../openapi/examples/yard-of-four-tracks.json' with { type: 'json' }
import type { Example } from './responses.ts'

/** Plans to start from; each file is the complete body of a request. */
export const EXAMPLE_PLANS: Record<string, Example> = {
  'quarter-loop': { summary: 'A quarter of a circle between two straights, with stock and prices', value: quarterLoop },
  'small-oval': { summary: 'A closed oval with easements', value: smallOval },
  'loop-in-the-sun': {
    summary: 'A clamped loop with expansion joints, in a given climate',
    value: loopInTheSun,
  },
  'footbridge-line': {
    summary: 'A line with a turnout over a footbridge, joints staggered and kept off the bridge and a path',
    value: footbridge,
  },
  'hillside-with-grade': { summary: 'A climbing line that joins track already laid', value: hillside },
  'passing-siding': {
    summary: 'A passing siding between two turnouts, with the cars and trains that run there',
    value: passingSiding,
  },
  'pond-and-terrace': {
    summary: 'A loop round a pond with a grade from it, a little too steep, its rail rolled and trimmed',
    value: pond,
  },
  'line-with-bed-and-feeders': {
    summary: 'A line with ties in strips, ballast, feeders, tax and extras',
    value: fedLine,
  },
  'oval-of-ready-made-track': {
    summary: 'An oval of ready-made track, some of it on hand, with loose rail where that is cheaper or no piece fits',
    value: readyMadeOval,
  },
  'track-through-a-bank': {
    summary: 'A line with its ground: through a bank and over a hollow, with cut and fill',
    value: throughABank,
  },
  'extension-of-a-line': { summary: 'New track beside track that stays and track that is lifted', value: extension },
}

/** Projects to save. */
export const EXAMPLE_PROJECTS: Record<string, Example> = {
  'quarter-loop': {
    summary: 'A plan with a name and notes',
    value: { name: 'Round the pond', notes: 'Ballast is in the garage.', plan: quarterLoop },
  },
}

/** Links to make. */
export const EXAMPLE_LINKS: Record<string, Example> = {
  'shopping-list': { summary: 'A link for one spreadsheet', value: { label: 'Shopping list on the laptop' } },
}

/** Curves to start from. */
export const EXAMPLE_CURVES: Record<string, Example> = {
  'bend-by-hand': { summary: 'Half-hard brass, bent by hand', value: handBend },
  'bend-in-rollers': {
    summary: 'Stainless of unknown temper, calibrated by a test bend, in a roller bender',
    value: rollerBend,
  },
}

/** Test bends to start from. */
export const EXAMPLE_CALIBRATIONS: Record<string, Example> = {
  'calibration-by-radii': { summary: 'Two test bends by their radii', value: calibration },
}

/** Readings to start from. */
export const EXAMPLE_CHECKS: Record<string, Example> = {
  'check-at-the-bench': { summary: 'A bent rail against the radius it should have', value: benchCheck },
  'check-laid-curve': { summary: 'A laid curve, lined to given ordinates', value: liningCheck },
}

/** Curves to peg out. */
export const EXAMPLE_SETTING_OUTS: Record<string, Example> = {
  'curves-to-peg-out': { summary: 'An arc between two easements, pegs a yard apart', value: pegs },
}

/** Figures of track. */
export const EXAMPLE_FIGURES: Record<string, Example> = {
  'passing-loop': { summary: 'A siding of 2.4 m beside a straight, of No. 6 turnouts', value: passingLoop },
  'yard-of-four-tracks': { summary: 'Four tracks of different clear lengths at a ladder', value: yard },
  'crossover-in-a-curve': { summary: 'A crossover between two concentric curves', value: curvedCrossover },
}

/** What is to be fitted. */
export const EXAMPLE_FITS: Record<string, Example> = {
  'connection-to-fit': {
    summary: 'Two sides of a garden to be joined with easements, and a passing track to be closed',
    value: fits,
  },
}

/** Tracks to move. */
export const EXAMPLE_MOVES: Record<string, Example> = {
  'siding-to-move': { summary: 'A line moved away from a tree, with the branch at its end', value: sidingToMove },
}

/** Surveys to work out. */
export const EXAMPLE_SURVEYS: Record<string, Example> = {
  'garden-survey': { summary: 'Three points from three pegs, with rises and a line of stations', value: gardenSurvey },
}

/** Materials to compare. */
export const EXAMPLE_COMPARISONS: Record<string, Example> = {
  'loop-in-three-metals': { summary: 'A fed loop in brass, stainless and aluminium', value: materials },
}

/** Runs to be cut. */
export const EXAMPLE_CUT_PLANS: Record<string, Example> = {
  'six-runs-to-cut': { summary: 'Three stretches of track, two stick lengths, some in the shed', value: sixRuns },
}
