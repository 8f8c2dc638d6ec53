import type { Severity } from '../checking/finding.ts'

/**
 * Every rule that a finding may name, for a plan, a curve or a measured bend. Shown at `/docs/problems` below the faults:
 * with a fault there is no answer, with a finding there is one.
 */

export interface RuleRow {
  /** The most severe first. */
  readonly severities: readonly Severity[]
  readonly when: string
  /** Where its limit comes from. */
  readonly source: string
  /** The fields of a plan that its limit follows, each by its place: `[]` for each of a list. */
  readonly fields?: readonly string[]
}

export const FINDINGS = {
  closure: {
    severities: ['stop', 'warn'],
    when: 'The end of a closed track does not meet its start: position, heading or elevation differ by more than the standards allow.',
    source: 'own choice, no source',
    fields: ['standards.closureGap', 'standards.closureHeading'],
  },
  'leg-not-met': {
    severities: ['stop', 'warn'],
    when: 'The end of a track does not meet the leg of the turnout that it comes to: position, heading or elevation differ by more than the standards allow.',
    source: 'own choice, no source',
    fields: ['standards.closureGap', 'standards.closureHeading'],
  },
  'height-step': {
    severities: ['stop', 'warn'],
    when: 'The ends of two tracks lie on each other and point at each other, but their heights differ by more than the standards allow. An end that the plan holds there is a finding of closure or leg-not-met.',
    source: 'own choice, no source',
    fields: ['standards.closureGap', 'standards.closureHeading'],
  },
  'minimum-radius': {
    severities: ['stop'],
    when: 'A curve, or the closure of a turnout, is tighter than the minimum radius.',
    source: 'common practice, no source: three times the longest car',
    fields: ['standards.minimumRadius', 'standards.longestCar'],
  },
  'reverse-curve': {
    severities: ['warn', 'note'],
    when: 'The straight between two curves of opposite turn is shorter than required, also through turnouts and from one track to another; a note where both have easements. If the plan has cars, a warning where the couplers of two coupled cars come further off each other sideways than standards.maximumCouplerOffset, or where the trucks beside the couplers are in the curves of two turnouts at once, and otherwise a note; without cars a note between two turnouts with half of it. For readings: the curve bends both ways.',
    source:
      'common practice, no source: one longest car of straight; the geometry of two coupled cars where the plan has cars; NEM 111 and NEM 113 for curves with easements',
    fields: [
      'standards.minimumTangentBetweenReverseCurves',
      'standards.longestCar',
      'cars',
      'standards.maximumCouplerOffset',
    ],
  },
  'turnout-spacing': {
    severities: ['note'],
    when: 'The points of two turnouts face each other with less track between them than the longest car.',
    source: 'common practice, no source',
    fields: ['standards.longestCar'],
  },
  fouling: {
    severities: ['warn', 'note'],
    when: 'A track from one turnout to another of the same track has no room between its fouling points for any train of the plan (a note: for some of them), or, without trains, not for one car; a spur not for one car.',
    source: 'geometry of two cars beside each other; common practice, no source',
    fields: ['cars', 'trains', 'standards.trackSpacing'],
  },
  runaround: {
    severities: ['note'],
    when: 'The track before the points of a passing siding ends before an engine has room to run round its train.',
    source: 'common practice, no source',
    fields: ['cars', 'trains'],
  },
  switchback: {
    severities: ['note'],
    when: 'The track before the points of a turnout ends before any train of the plan can change from one leg to the other.',
    source: 'common practice, no source',
    fields: ['cars', 'trains'],
  },
  obstacle: {
    severities: ['stop'],
    when: 'A car of the plan touches an obstacle on its way along a track, whose rails there are lower than the top of the obstacle.',
    source: 'geometry of a car on two trucks, moved along the line',
    fields: ['obstacles', 'cars'],
  },
  outline: {
    severities: ['stop'],
    when: 'A car of the plan reaches over the outline of the garden on its way along a track, or the track itself lies outside.',
    source: 'geometry of a car on two trucks, moved along the line',
    fields: ['outline', 'cars'],
  },
  'track-spacing': {
    severities: ['warn', 'note'],
    when: 'Cars on two tracks, or on two parts of one, would touch as they pass each other, elsewhere than before fouling points and where tracks meet or cross. A note where both tracks are interlaced: one train at a time.',
    source: 'geometry of two cars on two trucks beside each other',
    fields: ['cars', 'tracks[].interlaced'],
  },
  'over-crossing': {
    severities: ['stop', 'warn'],
    when: 'A track passes over another with less height free under the bridge than the cars below need. A warning where neither standards.clearance nor a height of cars says how much that is.',
    source: 'own choice, no source: the highest car and 20 mm, 250 mm without one; 60 mm of ties and deck',
    fields: ['standards.clearance', 'standards.deckThickness', 'cars', 'standards.maximumGradePct'],
  },
  'self-crossing': {
    severities: ['stop'],
    when: 'A track crosses itself or another track, or lies on it, with less than 100 mm between their heights. Ends that meet are no crossing.',
    source: 'geometry; the 100 mm are an own choice, no source',
  },
  'not-checked': {
    severities: ['note'],
    when: 'A rule was not checked, because the plan does not say what to check it against.',
    source: 'follows from what the plan leaves out',
    fields: ['standards.longestCar'],
  },
  'diameter-or-radius': {
    severities: ['note'],
    when: 'A diameter makes a curve of less than 1.2 m radius: perhaps the radius was meant.',
    source: 'own choice, no source',
  },
  'unit-in-doubt': {
    severities: ['note'],
    when: 'A length below 50 without a unit, so in millimetres, stands beside elements at least twenty times as long.',
    source: 'own choice, no source',
  },
  'inches-over-a-foot': {
    severities: ['note'],
    when: 'A length has twelve inches or more after its feet.',
    source: 'own choice, no source',
  },
  'more-than-a-turn': {
    severities: ['note'],
    when: 'A curve between two straights turns more than 360° on level track.',
    source: 'own choice, no source',
  },
  'maximum-grade': {
    severities: ['warn'],
    when: 'The track is steeper than the maximum grade.',
    source: 'common practice, no source',
    fields: [
      'standards.maximumGradePct',
      'standards.shortGradeLength',
      'standards.maximumShortGradePct',
      'tracks[].limits[].maximumGradePct',
    ],
  },
  'averaged-grade': {
    severities: ['warn'],
    when: 'The grade under the longest train of the plan, averaged over its length, is more than the maximum grade, although each short grade by itself may be as steep as it is.',
    source: 'common practice, no source: 2 % averaged over the train',
    fields: ['standards.maximumGradePct', 'standards.shortGradeLength', 'trains', 'tracks[].limits'],
  },
  'vertical-curve': {
    severities: ['warn'],
    when: 'The grade changes over too short a vertical curve for a car: its coupler comes off that of the next car in height by more than standards.couplerHeightDifference, or its body touches the rails. Only checked where the plan gives that difference or cars[].undersideHeight.',
    source: 'geometry of a car on two trucks over a parabola',
    fields: ['standards.couplerHeightDifference', 'cars', 'tracks[].gradeLine[].verticalCurve'],
  },
  'train-stalls': {
    severities: ['warn', 'note'],
    when: 'A train asks for more on its hardest stretch than 80 % of what its engine pulls on dry rail: a warning for steam, and where it is more than all of it, otherwise a note. Each track by itself.',
    source:
      'US Army TR 0603 §2.10: grade 20 lb a ton for each percent (exact), 80 % for the weather; curve resistance after Protopapadakis, from memory, or as measured',
    fields: ['cars', 'trains', 'standards.curveResistancePct'],
  },
  'train-runs-away': {
    severities: ['warn'],
    when: 'A train pushes downhill harder than the driven wheels of its engine hold on damp rail, at 80 % of their adhesion.',
    source: 'balance of forces on the grade; US Army TR 0603 §2.10: 80 % for the weather',
    fields: ['cars', 'trains'],
  },
  'curvature-jump': {
    severities: ['note'],
    when: 'Without an easement, the curvature changes suddenly by more than that of a radius of 60 gauges (NEM 113).',
    source: 'NEM 113: 60 gauges',
  },
  'chord-too-long': {
    severities: ['note'],
    when: 'A chord does not fit a bend; its ordinates are left out.',
    source: 'geometry: a chord reaches no further than the bend',
    fields: ['chords'],
  },
  'piece-too-short': {
    severities: ['warn'],
    when: 'A rail has a piece shorter than the minimum, and cannot be divided in any other way.',
    source: 'common practice, no source',
    fields: ['supplies.minimumPiece'],
  },
  'joint-in-keep-out': {
    severities: ['warn'],
    when: 'A joint lies in a stretch without joints, because a break is there or no stick is long enough.',
    source: 'the plan’s own rule',
    fields: ['tracks[].keepOut'],
  },
  'joints-too-near': {
    severities: ['warn'],
    when: 'Joints of the two rails are closer together than the stagger.',
    source: 'the plan’s own rule',
    fields: ['joints.stagger'],
  },
  'joints-not-square': {
    severities: ['warn'],
    when: 'A joint has no joint opposite it, although the arrangement is square.',
    source: 'the plan’s own rule',
    fields: ['joints.arrangement'],
  },
  'joint-on-tie': {
    severities: ['warn'],
    when: 'A joint does not lie midway between two ties, although the plan requires it.',
    source: 'the plan’s own rule',
    fields: ['joints.betweenTies'],
  },
  'break-joins-nothing': {
    severities: ['note'],
    when: 'A break is at an end of a track that joins no other track.',
    source: 'own choice, no source',
    fields: ['tracks[].breaks'],
  },
  'gap-too-wide': {
    severities: ['warn'],
    when: 'When coldest, a gap is wider than the joiner or expansion joint allows.',
    source: 'common practice, no source',
    fields: ['joints.gapLimit', 'climate'],
  },
  'expansion-joint-missing': {
    severities: ['warn'],
    when: 'A length of clamped rail that moves as one is too long for its expansion joints.',
    source: 'common practice, no source',
    fields: ['joints.expansionJointLimit', 'climate'],
  },
  'held-rail-can-buckle': {
    severities: ['warn'],
    when: 'Held straight rail can buckle sideways when hottest.',
    source: 'Euler’s load of a straight bar, with the rail held by its ties',
    fields: ['joints.held', 'climate'],
  },
  'laid-too-hot': {
    severities: ['warn'],
    when: 'The rail is laid at a higher temperature than the hottest in the climate of the plan.',
    source: 'the plan’s own climate',
    fields: ['climate.laying', 'climate.hottest', 'climate.sunAllowance'],
  },
  'laid-too-cold': {
    severities: ['warn'],
    when: 'The rail is laid at a lower temperature than the coldest in the climate of the plan.',
    source: 'the plan’s own climate',
    fields: ['climate.laying', 'climate.coldest'],
  },
  'expansion-unknown': {
    severities: ['note'],
    when: 'The thermal expansion of the metal is unknown.',
    source: 'follows from what the plan leaves out',
    fields: ['rail'],
  },
  'mixed-metals': {
    severities: ['note'],
    when: 'Where tracks join, aluminium meets another metal and may corrode.',
    source: 'the galvanic series; common practice, no source',
    fields: ['rail'],
  },
  'resistivity-unknown': {
    severities: ['warn'],
    when: 'The resistivity of the rail is unknown.',
    source: 'follows from what the plan leaves out',
    fields: ['rail'],
  },
  'polarity-loop': {
    severities: ['stop'],
    when: 'Trains take their power from the rails, and a reverse loop leads the left rail to the right rail without insulated breaks at both of its ends.',
    source: 'Ohm’s law: the left rail must not be joined to the right rail',
    fields: ['tracks[].breaks'],
  },
  'polarity-wye': {
    severities: ['stop'],
    when: 'Trains take their power from the rails, and the three legs of a wye lead the left rail to the right rail without insulated breaks at both ends of one of them.',
    source: 'Ohm’s law: the left rail must not be joined to the right rail',
    fields: ['tracks[].breaks'],
  },
  'drop-not-kept': {
    severities: ['warn'],
    when: 'No reasonable number of feeders keeps the voltage drop within the limit.',
    source: 'Ohm’s law, with the allowed drop of the plan',
    fields: ['power'],
  },
  'bought-before': {
    severities: ['note'],
    when: 'What was bought for an earlier revision is used up, or more of it was bought than is needed now.',
    source: 'the project’s own purchases',
  },
  'temper-unknown': {
    severities: ['note'],
    when: 'The forming radius is a range, because it depends on the temper and none is given.',
    source: 'follows from what the plan leaves out',
    fields: ['rail.temper'],
  },
  'calibration-inconsistent': {
    severities: ['warn'],
    when: 'Test bends contradict one another.',
    source: 'the test bends of the plan',
    fields: ['bender'],
  },
  'calibration-poor': {
    severities: ['note'],
    when: 'The test bends do not determine the yield to within 15 %.',
    source: 'own choice, no source: 15 %',
    fields: ['bender'],
  },
  'over-strained': {
    severities: ['stop', 'warn'],
    when: 'Bending stretches the metal by more than half of its elongation at fracture; a stop if by more than all of it.',
    source: 'the metal’s elongation at fracture; half of it is common practice, no source',
    fields: ['rail.temper'],
  },
  'yields-backwards': {
    severities: ['note'],
    when: 'When released, the rail yields in the other direction, so it springs back further than calculated.',
    source: 'theory of plastic bending',
  },
  'span-too-long': {
    severities: ['warn'],
    when: 'The rollers are too far apart for a curve.',
    source: 'geometry of three rollers',
    fields: ['bender.span'],
  },
  'line-before-touching': {
    severities: ['warn'],
    when: 'By the line through the test passes, the depth for a curve would be reached before the rollers touch the rail.',
    source: 'the test passes of the plan',
    fields: ['bender'],
  },
  'too-many-passes': {
    severities: ['note'],
    when: 'A bend needs too many passes to list them.',
    source: 'own choice, no source',
    fields: ['bender'],
  },
  'missing-reading': {
    severities: ['stop', 'warn'],
    when: 'A station has no reading; without it a laid curve cannot be lined.',
    source: 'the readings themselves',
  },
  slip: {
    severities: ['warn'],
    when: 'A reading does not fit its neighbours: it was misread, or there is a kink.',
    source: 'a likelihood test of the readings against the curve fitted to them',
  },
  'bends-other-way': {
    severities: ['note'],
    when: 'At some stations the rail bends in the opposite direction.',
    source: 'the readings themselves',
  },
  'not-used': {
    severities: ['note'],
    when: 'Some fields are not used in a check against a radius.',
    source: 'follows from what is asked',
  },
  'spacing-not-half-chord': {
    severities: ['warn'],
    when: 'Stations are not half a chord apart, so no throws can be worked out.',
    source: 'string lining: stations half a chord apart',
  },
  'end-direction': {
    severities: ['warn'],
    when: 'The proposed ordinates would change the direction of the track beyond the curve.',
    source: 'string lining: the sum of the ordinates keeps the direction',
  },
  'end-position': {
    severities: ['warn'],
    when: 'With the proposed ordinates the curve does not meet the track beyond it.',
    source: 'string lining: the moments of the ordinates keep the position',
  },
  'fixed-station-moves': {
    severities: ['stop'],
    when: 'The proposed ordinates move a station that may not move.',
    source: 'the stations named as fixed',
  },
  'maximum-throw': {
    severities: ['stop'],
    when: 'A throw is larger than allowed.',
    source: 'the throw that is allowed',
  },
  'no-proposal': {
    severities: ['stop'],
    when: 'No ordinates keep both ends and all fixed stations where they are.',
    source: 'string lining',
  },
  'too-many-to-propose': {
    severities: ['stop'],
    when: 'There are too many stations for a proposal.',
    source: 'own choice, no source',
  },
  'search-ended': {
    severities: ['note'],
    when: 'The search for ordinates reached the limit on its work before it was complete.',
    source: 'own choice, no source',
  },
  'unfinished-end': {
    severities: ['note'],
    when: 'The curve continues beyond the first or the last reading.',
    source: 'the readings themselves',
  },
  'several-bodies': {
    severities: ['note'],
    when: 'The proposal has more than one constant ordinate.',
    source: 'the readings themselves',
  },
} as const satisfies Record<string, RuleRow>
