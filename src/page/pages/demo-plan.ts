import type { StoredPlan } from '../../projects/store.ts'

/**
 * An invented garden: a loop round a pond with a reverse curve at a rockery, and a line from its long straight up to the
 * terrace. The two odd lengths and angles make the loop close to less than a millimetre. The grade is slightly above the
 * limit of the plan, so that a finding with its cure can be seen. Half-hard brass springs back too far for even bending by
 * hand, so the rail goes through a roller bender, and the straight ends are cut off.
 */
export const DEMO_PLAN = {
  title: 'Round the pond and up to the terrace',
  gauge: 45,
  rail: { section: '250', material: 'brass', temper: 'half-hard' },
  tracks: [
    {
      name: 'pond loop',
      closed: true,
      elements: [
        { kind: 'tangent', length: '17 ft 11-1/2 in', label: 'along the hedge' },
        { kind: 'easement', length: '18 in' },
        { kind: 'arc', diameter: '10 ft', angle: 190.811, turn: 'left', label: 'round the pond' },
        { kind: 'easement', length: '18 in' },
        { kind: 'tangent', length: '2 ft' },
        { kind: 'arc', diameter: '18 ft', angle: 60, turn: 'right', label: 'behind the rockery' },
        { kind: 'tangent', length: '30 in' },
        { kind: 'easement', length: '18 in' },
        { kind: 'arc', diameter: '11 ft', angle: 196.374, turn: 'left', label: 'under the apple tree' },
        { kind: 'easement', length: '18 in' },
      ],
    },
    {
      name: 'terrace line',
      start: { x: '17 ft 11-1/2 in', y: 0, heading: 0, elevation: 0 },
      joinsExisting: { start: true },
      gradeLine: [
        { at: 0, elevation: 0 },
        { at: '3 ft', elevation: 0 },
        { at: '18 ft', elevation: '4 in' },
      ],
      elements: [
        { kind: 'tangent', length: '2 ft' },
        { kind: 'easement', length: '1 ft' },
        { kind: 'arc', diameter: '12 ft', angle: 30, turn: 'right' },
        { kind: 'easement', length: '1 ft' },
        { kind: 'tangent', length: '20 in' },
        { kind: 'arc', diameter: '14 ft', angle: 55, turn: 'left', label: 'up the ramp' },
        { kind: 'tangent', length: '5 ft', label: 'beside the terrace' },
      ],
    },
  ],
  supplies: {
    currency: 'USD',
    sticks: [
      { length: '5 ft', price: '14.50', onHand: 6 },
      { length: '6 ft', price: '16.80' },
    ],
    joiners: { packSize: 12, pricePerPack: '9.60', onHand: 10 },
    ties: { spacing: '1-3/4 in', packSize: 100, pricePerPack: '24.00', onHand: 150 },
    fasteners: { packSize: 500, pricePerPack: '11.50' },
    kerf: '1/16 in',
    minimumPiece: '8 in',
  },
  standards: { longestCar: '20 in', maximumGradePct: 2 },
  chords: ['12 in', 500],
  bender: {
    span: '5 in',
    outerRollerRadius: '1/2 in',
    bearsOn: 'web',
    mode: 'rolled',
    maxPerPass: 0.5,
    screwPitch: 1.25,
    ends: 'trim',
  },
} satisfies StoredPlan
