import type { Severity } from '../checking/finding.ts'

/**
 * Every rule that a finding may name: of a plan, of a curve, or of a bend that was measured. Shown at `/docs/problems`,
 * below the faults: a fault is why there is no answer, a finding stands in one.
 */

interface RuleRow {
  /** The gravest first. */
  readonly severities: readonly Severity[]
  readonly when: string
}

export const FINDINGS = {
  closure: {
    severities: ['stop', 'warn'],
    when: 'A closed track misses its own start in place, heading or height by more than its standards allow.',
  },
  'minimum-radius': { severities: ['warn'], when: 'A curve is tighter than the minimum radius.' },
  'reverse-curve': {
    severities: ['warn', 'note'],
    when: 'Curves of opposite turn follow one another with less straight between than asked for; a note where both are eased. Of readings: the curve bends both ways.',
  },
  'maximum-grade': { severities: ['warn'], when: 'The track climbs or falls more steeply than allowed.' },
  'curvature-jump': {
    severities: ['note'],
    when: 'Curvature jumps by more than a radius of 60 gauges is worth, without an easement (NEM 113).',
  },
  'chord-too-long': { severities: ['note'], when: 'A chord does not fit a bend; its ordinates are left out.' },
  'piece-too-short': {
    severities: ['warn'],
    when: 'A rail has a piece under the minimum, and cannot be cut in another way.',
  },
  'joint-in-keep-out': {
    severities: ['warn'],
    when: 'A joint lies in a stretch that must have none: a break is there, or no stick reaches across.',
  },
  'joints-too-near': {
    severities: ['warn'],
    when: 'Joints of the two rails are closer together than the stagger.',
  },
  'joints-not-square': {
    severities: ['warn'],
    when: 'A joint has none opposite it, although the arrangement is square.',
  },
  'joint-on-tie': {
    severities: ['warn'],
    when: 'A joint does not lie midway between two ties, although the plan asks for that.',
  },
  'break-joins-nothing': { severities: ['note'], when: 'A break is at an end of a track that joins nothing.' },
  'gap-too-wide': {
    severities: ['warn'],
    when: 'At the coldest a gap opens further than the joiner or expansion joint can take.',
  },
  'expansion-joint-missing': {
    severities: ['warn'],
    when: 'Clamped rail that moves as one is longer than its expansion joints can take.',
  },
  'held-rail-can-buckle': {
    severities: ['warn'],
    when: 'Straight rail that is held can buckle sideways at its hottest.',
  },
  'laid-too-hot': {
    severities: ['warn'],
    when: 'The rail is laid at a higher temperature than the hottest it is said to get.',
  },
  'laid-too-cold': {
    severities: ['warn'],
    when: 'The rail is laid at a lower temperature than the coldest it is said to get.',
  },
  'expansion-unknown': { severities: ['note'], when: 'It is not known how much the metal expands.' },
  'mixed-metals': { severities: ['note'], when: 'Where tracks join, aluminium meets another metal and may corrode.' },
  'resistivity-unknown': { severities: ['warn'], when: 'It is not known how well the rail conducts.' },
  'drop-not-kept': {
    severities: ['warn'],
    when: 'No reasonable number of feeders keeps the voltage drop within its limit.',
  },
  'bought-before': {
    severities: ['note'],
    when: 'What was bought for an earlier revision is used up, or more of it was bought than is needed now.',
  },
  'temper-unknown': {
    severities: ['note'],
    when: 'The forming radius is a range, because it depends on the temper and none is given.',
  },
  'calibration-inconsistent': { severities: ['warn'], when: 'Test bends contradict one another.' },
  'calibration-poor': { severities: ['note'], when: 'Test bends leave the yield open by more than 15 %.' },
  'over-strained': {
    severities: ['stop', 'warn'],
    when: 'Bending stretches the metal by more than half of its elongation at fracture; a stop if by all of it.',
  },
  'yields-backwards': {
    severities: ['note'],
    when: 'When released, the rail yields the other way: it springs back further than worked out.',
  },
  'span-too-long': { severities: ['warn'], when: 'The rollers stand too far apart for a curve.' },
  'line-before-touching': {
    severities: ['warn'],
    when: 'By the line through the test passes, a curve would be bent before the rollers touch the rail.',
  },
  'too-many-passes': { severities: ['note'], when: 'A bend takes too many passes to write them out.' },
  'missing-reading': {
    severities: ['stop', 'warn'],
    when: 'A station has no reading; without it a laid curve cannot be lined.',
  },
  slip: { severities: ['warn'], when: 'A reading does not fit its neighbours: misread, or a kink.' },
  'bends-other-way': { severities: ['note'], when: 'At some stations the rail bends away from the radius asked for.' },
  'not-used': { severities: ['note'], when: 'Fields play no part in a check against a radius.' },
  'spacing-not-half-chord': {
    severities: ['warn'],
    when: 'Stations are not half a chord apart, so no throws can be worked out.',
  },
  'end-direction': { severities: ['warn'], when: 'The proposed ordinates would turn the track beyond the curve.' },
  'end-position': {
    severities: ['warn'],
    when: 'The proposed ordinates do not bring the curve back to the track beyond it.',
  },
  'fixed-station-moves': { severities: ['stop'], when: 'The proposed ordinates move a station that may not move.' },
  'maximum-throw': { severities: ['stop'], when: 'A throw is larger than allowed.' },
  'no-proposal': { severities: ['stop'], when: 'No ordinates keep both ends and all fixed stations in place.' },
  'too-many-to-propose': { severities: ['stop'], when: 'There are more stations than ordinates are proposed for.' },
  'search-ended': { severities: ['note'], when: 'The search for ordinates ended before it had looked everywhere.' },
  'unfinished-end': { severities: ['note'], when: 'The curve goes on beyond the first or the last reading.' },
  'several-bodies': { severities: ['note'], when: 'The proposal has more than one constant ordinate.' },
} as const satisfies Record<string, RuleRow>
