import type { Estimate } from '../../estimate/answer.ts'
import { sentence } from '../form/controls.ts'
import { type Html, html } from '../html.ts'

/** Where a default was used: the plan's field in the words of the form. */
const FIELDS: Readonly<Record<string, string>> = {
  gauge: 'Gauge',
  chords: 'Chords',
  temper: 'Temper',
  work: 'What is bent',
  limits: 'What hands can do',
  elongationPct: 'Elongation at break',
  angle: 'Angle',
  overbendRatio: 'Overbending by hand',
  grip: 'Grip of the hands',
  handForceN: 'Force of a hand',
  jointFlat: 'Flat at a joint',
  ends: 'Ends that stay straight',
  fixedEnd: 'End that is held',
  calibration: 'Test bends',
  resolution: 'You read ordinates to',
  section: 'Rail section',
  headDepth: 'Depth of the head',
  footDepth: 'Depth of the foot',
  start: 'Where it starts',
  state: 'Lifted track',
  elevation: 'Height of the rail at the start',
  joinsExisting: 'Ends that meet other track',
  currency: 'Currency',
  sticks: 'Sticks',
  spacing: 'Tie spacing',
  fastenersPerTie: 'Fasteners to a tie',
  kerf: 'Width of a saw cut',
  minimumPiece: 'Shortest piece of rail',
  packSize: 'Pack of',
  onHand: 'On hand',
  buyable: 'May be bought',
  minimumRadius: 'Minimum radius',
  maximumGradePct: 'Maximum grade',
  minimumTangentBetweenReverseCurves: 'Straight between reverse curves',
  closureGap: 'Gap allowed where a loop closes',
  closureHeading: 'Kink allowed where a loop closes',
  joiners: 'Rail joiners',
  insulatedJoiners: 'Insulated joiners',
  expansionJoints: 'Expansion joints',
  sunAllowance: 'Hotter in the sun by',
  kind: 'How rails are joined',
  stagger: 'Stagger',
  gapLimit: 'Widest gap of a joiner',
  expansionJointLimit: 'Widest gap of an expansion joint',
  insulatorThickness: 'Thickness of an insulator',
  transitionJoiners: 'Transition joiners',
  ties: 'Ties',
  readyMade: 'Ready-made track',
  effort: 'Looking for the best cut plan',
  fasteners: 'Fasteners',
  strip: 'Tie strips',
  extras: 'Extras',
  filledTo: 'Ballast goes up to',
  shoulderSlope: 'Slope of the ballast’s sides',
  shrinkagePct: 'Settling of the ballast',
  densityKgM3: 'Density',
  power: 'Resistance of the rail',
  supplyVoltageV: 'Voltage of the supply',
  maximumDropPct: 'Voltage lost on the way',
  jointResistanceOhm: 'Resistance of a joint',
  feeder: 'Feeder',
}

/** Values that the plan names by identifiers, in the words of the form. */
const VALUES: Readonly<Record<string, string>> = {
  true: 'yes',
  false: 'no',
  'loose-rail': 'loose rail',
  assembled: 'assembled track, both rails at once',
  'finish-by-hand': 'finished by hand',
  trim: 'cut off',
  cheapest: 'where it comes cheaper',
  'join-and-roll-through': 'joined first, rolled through',
  unknown: 'not known',
}

/** Everything the plan left open and what was taken for it. */
export function assumptionList({ assumptions, tracks }: Estimate): Html {
  if (assumptions.length === 0) return html`<p>Nothing: the plan says it all.</p>`
  return html`<table class="figures words"><thead><tr><th scope="col">Left open</th><th scope="col">Taken</th><th scope="col">Why</th></tr></thead>
<tbody>${assumptions.map(
    ({ field, value, reason }) =>
      html`<tr><th scope="row">${fieldName(field, tracks)}</th><td>${valueInWords(field, value)}</td><td>${sentence(reason)}</td></tr>
`,
  )}</tbody></table>`
}

function valueInWords(field: string, value: string): string {
  if (field === '/bender/fixedEnd') return `its ${value}`
  return VALUES[value] ?? value
}

/** A JSON Pointer into the plan in the words of the form: `/tracks/0/start` is "Where it starts, pond loop". */
export function fieldName(pointer: string, tracks: readonly { readonly name: string }[]): string {
  const path = pointer.split('/').slice(1)
  const last = path.findLast((token) => !/^\d+$/.test(token)) ?? pointer
  const name = FIELDS[last] ?? last
  const number = Number(path[path.findIndex((token) => /^\d+$/.test(token))])
  if (path[0] === 'tracks') return `${name}, ${tracks[number]?.name ?? `track ${number + 1}`}`
  if (path[0] === 'supplies' && path[1] === 'sticks' && path.length > 3) return `${name}, stick ${number + 1}`
  if (path[0] === 'supplies' && path[1] === 'panels') return `${name}, ready-made piece ${number + 1}`
  if (path[0] === 'extras') return `${name}, extra ${number + 1}`
  const owner = path[0] === 'supplies' && path.length > 2 ? FIELDS[path[1]!] : undefined
  return owner && last !== 'spacing' && last !== 'fastenersPerTie' ? `${name}, ${owner.toLowerCase()}` : name
}
