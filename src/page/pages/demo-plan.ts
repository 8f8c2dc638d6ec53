import type { StoredPlan } from '../../projects/store.ts'

/**
 * An invented garden: a line in the meadow is extended by a passing siding, a spur to a cider press, and a climb past a
 * pond and a rock, over the old line to the mill, to a reverse loop round a tree in the orchard. The odd angles and lengths bring siding and loop to their turnouts within the joints' two
 * millimetres, and two insulated breaks keep the loop from making a short circuit. Nothing found is worse than a note.
 * Half-hard brass springs back too far for even bending by hand, so the rail goes through a roller bender, and the straight
 * ends are cut off.
 */
export const DEMO_PLAN = {
  title: 'From the meadow up to the orchard',
  gauge: 45,
  rail: { section: '250', material: 'brass', temper: 'half-hard' },
  turnoutTypes: [
    { id: 'six-left', hand: 'left', number: 6, price: '68.00' },
    { id: 'six-right', hand: 'right', number: 6, price: '68.00', onHand: 1 },
    { id: 'wye', hand: 'wye', number: 4, price: '64.00' },
  ],
  cars: [
    {
      name: 'van',
      length: '12 in',
      truckCentres: '7 in',
      width: '4-1/2 in',
      height: '5-1/2 in',
      couplerLength: '3/4 in',
    },
    {
      name: 'engine',
      length: '11 in',
      truckCentres: '5 in',
      width: '4-1/2 in',
      height: '6-1/4 in',
      couplerLength: '3/4 in',
    },
  ],
  trains: [{ name: 'goods', engine: 'engine', cars: [{ car: 'van', count: 4 }] }],
  tracks: [
    { name: 'meadow line', state: 'existing', elements: [{ kind: 'tangent', length: '5 ft' }] },
    {
      name: 'orchard line',
      start: { after: 'meadow line' },
      gradeLine: [
        { at: '20 ft', elevation: 0, verticalCurve: '2 ft' },
        { at: '27 ft', elevation: '1-1/2 in', verticalCurve: '2 ft' },
      ],
      elements: [
        { kind: 'tangent', length: '1 ft' },
        { kind: 'turnout', name: 'W1', type: 'six-right', enters: 'points' },
        { kind: 'tangent', length: '1 ft' },
        { kind: 'turnout', name: 'W2', type: 'six-left', enters: 'points' },
        { kind: 'tangent', length: '9 ft 2 in', label: 'past the siding' },
        { kind: 'turnout', name: 'W3', type: 'six-right', enters: 'through' },
        { kind: 'arc', diameter: '18 ft', angle: 50, turn: 'left', label: 'up to the orchard' },
        { kind: 'tangent', length: '2 ft' },
        { kind: 'turnout', name: 'W4', type: 'wye', enters: 'points' },
      ],
    },
    {
      name: 'siding',
      start: { from: { turnout: 'W2', leg: 'diverging' } },
      end: { to: { turnout: 'W3', leg: 'diverging' } },
      elements: [
        { kind: 'tangent', length: '17-3/8 in' },
        { kind: 'arc', diameter: '20 ft', angle: 9.527, turn: 'right' },
        { kind: 'tangent', length: '3 ft' },
        { kind: 'arc', diameter: '20 ft', angle: 9.527, turn: 'right' },
        { kind: 'tangent', length: '17-3/8 in' },
      ],
    },
    {
      name: 'press spur',
      start: { from: { turnout: 'W1', leg: 'diverging' } },
      elements: [
        { kind: 'arc', diameter: '12 ft', angle: 30, turn: 'right' },
        { kind: 'tangent', length: '3 ft', label: 'at the cider press' },
      ],
    },
    {
      name: 'orchard loop',
      start: { from: { turnout: 'W4', leg: 'diverging' } },
      end: { to: { turnout: 'W4', leg: 'through' } },
      breaks: [
        { at: '1 ft', kind: 'insulated' },
        { at: '24 ft', kind: 'insulated' },
      ],
      elements: [
        { kind: 'easement', length: '1 ft' },
        { kind: 'arc', radius: '3 ft 6 in', angle: 27.025, turn: 'left' },
        { kind: 'easement', length: '2 ft' },
        { kind: 'arc', radius: '3 ft 6 in', angle: 264.67, turn: 'right', label: 'round the pear tree' },
        { kind: 'easement', length: '2 ft' },
        { kind: 'arc', radius: '3 ft 6 in', angle: 27.025, turn: 'left' },
        { kind: 'easement', length: '1 ft' },
      ],
    },
    {
      name: 'mill line',
      state: 'existing',
      start: { x: '26 ft 9 in', y: '-3 ft 3 in', heading: 100, elevation: '-10 in' },
      elements: [{ kind: 'tangent', length: '7 ft', label: 'in the sunken path' }],
    },
  ],
  obstacles: [
    {
      name: 'pond',
      polygon: [
        { x: '15 ft', y: '2 ft' },
        { x: '20 ft', y: '20 in' },
        { x: '22 ft', y: '2 ft 6 in' },
        { x: '21 ft 6 in', y: '4 ft' },
        { x: '18 ft', y: '4 ft 6 in' },
        { x: '15 ft', y: '3 ft 8 in' },
      ],
    },
    {
      name: 'rock',
      polygon: [
        { x: '30 ft', y: '6 in' },
        { x: '31 ft 3 in', y: '8 in' },
        { x: '32 ft', y: '1 ft 8 in' },
        { x: '30 ft 8 in', y: '1 ft 11 in' },
      ],
    },
    { name: 'pear tree', circle: { x: '37 ft 4 in', y: '10 ft 9-1/2 in', radius: '5 in' } },
  ],
  supplies: {
    currency: 'USD',
    sticks: [{ length: '6 ft', price: '16.80', onHand: 4 }],
    joiners: { packSize: 12, pricePerPack: '9.60', onHand: 10 },
    insulatedJoiners: { packSize: 4, pricePerPack: '5.20' },
    ties: { spacing: '1-3/4 in', packSize: 100, pricePerPack: '24.00', onHand: 150 },
    fasteners: { packSize: 500, pricePerPack: '11.50' },
    bridges: { pricePerM: '75.00' },
    minimumPiece: '8 in',
  },
  climate: { laying: '65 F', coldest: '10 F', hottest: '95 F' },
  power: { currentA: 3, feeder: { awg: 14, length: '10 ft', pricePerM: '0.90' } },
  standards: { longestCar: '12 in', maximumGradePct: 2, clearance: '7-1/4 in' },
  chords: ['12 in', '18 in'],
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
