import type { Fault } from '../../measure/fault.ts'
import { placeInForm } from './fault-places.ts'

/** Where in the form: `track 1, element 3, size of curve`. */
export function placeName(path: Fault['path']): string {
  const tokens = placeInForm(path).split('.')
  const names: string[] = []
  for (let n = 0; n < tokens.length; n++) {
    const token = tokens[n]!
    const row = ROWS[token]
    const number = Number(tokens[n + 1])
    if (row && Number.isInteger(number)) {
      names.push(`${row} ${number + 1}`)
      n++
    } else names.push(NAMES[token] ?? token)
  }
  return names.filter(Boolean).join(', ') || 'the plan'
}

const ROWS: Readonly<Record<string, string>> = {
  tracks: 'track',
  elements: 'element',
  gradeLine: 'point of the grade line',
  breaks: 'break',
  keepOut: 'stretch without joints',
  sticks: 'stick',
  calibration: 'test bend',
  rectangles: 'rectangle',
}

const NAMES: Readonly<Record<string, string>> = {
  tracks: 'tracks',
  elements: 'elements',
  gradeLine: 'grade line',
  breaks: 'breaks',
  keepOut: 'stretches without joints',
  from: 'where it begins',
  to: 'where it ends',
  reason: 'reason',
  climate: 'weather',
  laying: 'the rail when laid',
  coldest: 'coldest of the air',
  hottest: 'hottest of the air',
  sunAllowance: 'hotter in the sun by',
  joints: 'joints',
  arrangement: 'joints of the two rails',
  stagger: 'stagger',
  betweenTies: 'midway between two ties',
  held: 'rail is held',
  gapLimit: 'widest gap of a joiner',
  expansionJointLimit: 'widest gap of an expansion joint',
  insulatorThickness: 'thickness of an insulator',
  insulatedJoiners: 'insulated joiners',
  expansionJoints: 'expansion joints',
  bender: 'bending',
  work: 'what is bent',
  span: 'span of the rollers',
  outerRollerRadius: 'radius of the outer rollers',
  bearsOn: 'rollers bear on',
  mode: 'way of bending',
  maxPerPass: 'deepest step of a pass',
  screwPitch: 'pitch of the screw',
  ends: 'ends that stay straight',
  fixedEnd: 'end that is held',
  resolution: 'you read ordinates to',
  calibration: 'test bends',
  limits: 'limits of hand bending',
  overbendRatio: 'overbending',
  grip: 'grip',
  handForceN: 'force of a hand',
  jointFlat: 'off the curve at a joint',
  rectangles: 'rectangles',
  metal: 'metal by its numbers',
  youngsModulusGpa: 'Young’s modulus',
  yieldMpa: 'yield',
  elongationPct: 'elongation',
  densityKgM3: 'density',
  hardening: 'beyond the yield',
  model: 'law',
  n: 'exponent',
  tangentModulusGpa: 'slope beyond the yield',
  formedRadius: 'bent to radius',
  restingRadius: 'kept radius',
  rail: 'rail',
  section: 'rail section',
  material: 'metal',
  measured: 'calipers',
  headWidth: 'width of the head',
  footWidth: 'width of the foot',
  webThickness: 'thickness of the web',
  headDepth: 'depth of the head',
  footDepth: 'depth of the foot',
  across: 'size of curve',
  acrossIs: 'size of curve',
  turn: 'turns',
  label: 'remark',
  joinsExisting: 'ends of the track',
  supplies: 'what you have',
  onHand: 'on hand',
  packSize: 'pack of',
  pricePerPack: 'price of a pack',
  price: 'price of a pack',
  buyable: 'may be bought',
  spacing: 'tie spacing',
  fastenersPerTie: 'fasteners to a tie',
  kerf: 'width of a saw cut',
  minimumPiece: 'shortest piece of rail',
  standards: 'rules',
  longestCar: 'longest car',
  minimumRadius: 'minimum radius',
  maximumGradePct: 'maximum grade',
  minimumTangentBetweenReverseCurves: 'straight between reverse curves',
  closureGap: 'gap allowed where a loop closes',
  closureHeading: 'kink allowed where a loop closes',
  at: 'distance from the start',
  elevation: 'height of the rail',
  start: 'where it starts',
}
