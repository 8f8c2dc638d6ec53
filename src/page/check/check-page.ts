import type { BendCheckResult } from '../../bending/bend-check/check.ts'
import { bendCheckFaults } from '../../bending/bend-check/faults.ts'
import type { BendCheck, BendCheckFinding, BendCheckInput, StationCheck } from '../../bending/bend-check/types.ts'
import type { Severity } from '../../checking/finding.ts'
import type { Fault } from '../../measure/fault.ts'
import { lettersOf } from '../../measure/letters.ts'
import { BEND_CHECK } from '../../plan/rows/questions.ts'
import { sign } from '../drawing/plan-drawing.ts'
import { readingsDrawing } from '../drawing/readings-drawing.ts'
import { bareNumbers, SHOWN_IN, unitsSwitch } from '../form/bare-numbers.ts'
import { faultNote, faultText, field, hasFaultUnder, isFilledIn, open, type Placed } from '../form/controls.ts'
import { formShape, lowerFirst } from '../form/form-shape.ts'
import { type Content, type Html, html } from '../html.ts'
import { faultInUnits, inUnits } from '../in-units.ts'
import { benchLength, formatDegrees, type LengthsIn, ordinateLength } from '../show-length.ts'
import { counted } from '../words.ts'
import {
  CHECK_FIELDS,
  type CheckFields,
  type ReadTarget,
  readAs,
  readCheck,
  readTarget,
  type TargetCurve,
} from './read-check.ts'
import { sizeFields } from './size-fields.ts'
import { slipsIn, stationTable } from './station-table.ts'
import { targetCard, targetText } from './target-card.ts'

/** The page that checks a bent rail or a laid curve. `complete`: the form has no faults. */
export interface CheckPage {
  readonly main: Html
  readonly complete: boolean
}

/** The form as it was sent, with the result above it if there are readings to check. */
export async function checkPage(
  typed: CheckFields,
  lengthsIn: LengthsIn,
  check: (input: BendCheckInput) => Promise<BendCheckResult>,
): Promise<CheckPage> {
  const read = isTyped(typed) ? readCheck(typed) : null
  const result = read?.ok ? await check(read.input) : read
  const before = readTarget(typed)
  const found = result ? (result.ok ? [] : result.faults) : beforeReadings(before)
  const faults = found.map((fault) => faultInUnits(fault, lengthsIn))
  const placed: Placed = {
    part: { cells: typed, groups: {}, tables: {}, preserved: null },
    path: '',
    faults: byField(faults),
    shape,
    lengthsIn,
  }
  const main = html`<h1>Check a bend or a laid curve</h1>
${result?.ok && read?.ok && answer(result.check, read.input, before.ok ? before.target : null, lengthsIn)}
${!read && faults.length === 0 && before.ok && before.target && before.chordMm !== null && targetCard(before.target, before.chordMm, lengthsIn)}
${faults.length > 0 && faultSummary(faults)}
${form(placed, typed, lengthsIn, result?.ok === true)}`
  return { main, complete: faults.length === 0 }
}

/** The faults of a chord and a curve size before there are readings. */
function beforeReadings(before: ReadTarget): readonly Fault[] {
  if (!before.ok) return before.faults
  const { chordMm, target } = before
  if (chordMm === null || !target) return []
  return bendCheckFaults({ chordMm, readingsMm: [0], radiusMm: target.faceRadiusMm })
}

/** With only a chord and radius there is nothing to check yet, but the targets: the bench cards' links fill these in. */
function isTyped({ readings, proposed, fixed }: CheckFields): boolean {
  return [readings, proposed, fixed].some((text) => text.trim() !== '')
}

/** Faults by the form's field; the fault of a single reading is shown at the list of readings. */
function byField(faults: readonly Fault[]): Map<string, Fault[]> {
  const places = new Map<string, Fault[]>()
  for (const fault of faults) {
    const place = fieldOf(fault)
    places.set(place, [...(places.get(place) ?? []), fault])
  }
  return places
}

function fieldOf({ path }: Fault): string {
  const name = String(path[0] ?? '')
  if (name === 'radius') return 'across'
  return CHECK_FIELDS.some((known) => known === name) ? name : 'chord'
}

function faultSummary(faults: readonly Fault[]): Html {
  return html`<section class="card errors" role="alert" aria-labelledby="errors-title"><h2 id="errors-title">${counted(faults.length, 'problem')} to fix</h2>
<ul>${faults.slice(0, 50).map((fault) => html`<li><a href="#${fieldOf(fault)}">${nameOf(fieldOf(fault))}${stationOf(fault)}</a>: ${faultText(fault)}</li>`)}</ul></section>`
}

function nameOf(field: string): string {
  const row = field === 'across' ? BEND_CHECK.fields.radius : BEND_CHECK.fields[field as keyof typeof BEND_CHECK.fields]
  return lowerFirst(row?.called ?? row?.label ?? field)
}

function stationOf({ path }: Fault): string {
  return path.length > 1 && path[0] !== 'fixed' ? `, station ${path[1]}` : ''
}

const shape = formShape(BEND_CHECK)

const EXAMPLES = {
  bench: '/check?chord=500&readings=12.8+13.4+14.5+13.1+11.6&across=2400&acrossIs=radius',
  laid: '/check?chord=500&readings=0+1.5+5+9.5+13+11+14.5+10+13+12.5+8+6+1+0&fixed=7',
} as const

function form(placed: Placed, typed: CheckFields, lengthsIn: LengthsIn, isAnswered: boolean): Html {
  const as = readAs(typed)
  const list = (
    key: 'readings' | 'proposed',
    rows: number,
    hint: string = inUnits(shape.looks[key]!.hint!, lengthsIn),
  ) => {
    const { label } = shape.looks[key]!
    const faults = placed.faults.get(key) ?? []
    const described = faults.length > 0 ? `${key}.hint ${key}.fault` : `${key}.hint`
    return html`<div class="field wide"><label for="${key}">${label}</label>
<textarea id="${key}" name="${key}" rows="${rows}" aria-describedby="${described}"${faults.length > 0 && html` aria-invalid="true"`}>
${placed.part.cells[key]}</textarea><span class="hint" id="${key}.hint">${hint}</span>${key === 'readings' && as && html`<span class="hint" id="readings.read">Read as ${counted(as.length, 'reading')}: ${as.join(', ')}.</span>`}${faultNote(key, faults)}</div>`
  }
  const more = ['maximumThrow', 'spacing', 'tolerancePct', 'proposed']
  return html`<form method="get" action="/check" autocomplete="off" class="card" id="check" aria-labelledby="check-title">
<h2 id="check-title">${isAnswered ? 'Readings' : 'Your readings'}</h2>
<p class="hint">Hold a chord against the inside of the bend at the rail head, with its middle at a station, and read the gap between chord and rail there. Then move on to the next
station, half a chord further. Lengths may have a unit: <kbd>${lengthsIn === 'feet' ? '300 mm' : '12 in'}</kbd>.
A whole number and a fraction after it are one reading: <kbd>1 3/16</kbd>. After 0, or after a line break or semicolon, a fraction is a reading of its own: <kbd>0 1/32 3/16</kbd> are three.</p>
<div class="fields">
${field(placed, 'chord')}
${sizeFields(placed)}
${field(placed, 'fixed')}
${field(placed, 'resolution')}
${field(placed, {
  key: 'readingsIn',
  label: 'Readings without a unit are in',
  options: [
    { value: 'mm', label: 'millimetres' },
    { value: 'in', label: 'inches' },
  ],
})}
${list('readings', 5)}
</div>
<details${open(isFilledIn(placed, more) || hasFaultUnder(placed, ...more))}><summary>More options</summary>
<div class="fields">${['maximumThrow', 'spacing', 'tolerancePct'].map((each) => field(placed, each))}
${list('proposed', 2, 'one for every station; blank: calculated so that the largest throw is as small as possible')}</div></details>
<div class="buttons"><button class="first">Check</button>
<input type="hidden" name="${SHOWN_IN}" value="${lengthsIn}">
<p class="units">${unitsSwitch(lengthsIn)} <span class="hint">${bareNumbers(lengthsIn)}</span></p></div>
<p class="hint no-print">Examples: <a href="${EXAMPLES.bench}">a rail on the bench</a>, <a href="${EXAMPLES.laid}">a laid curve</a>.</p>
</form>`
}

function answer(
  check: BendCheck,
  { chordMm, radiusMm }: BendCheckInput,
  target: TargetCurve | null,
  lengthsIn: LengthsIn,
): Html {
  const isBench = radiusMm !== undefined
  const { stations, findings, proposal, assumptions } = check
  return html`<section class="card" id="answer" aria-labelledby="answer-title"><h2 id="answer-title">${isBench ? 'Bent rail' : 'Laid curve'}</h2>
<p class="verdict">${verdictText(check, isBench, lengthsIn)}</p>
<dl class="facts"><div><dt>Chord</dt><dd>${benchLength(chordMm, lengthsIn)}</dd></div>${radiusMm !== undefined && html`<div><dt>Target radius</dt><dd>${benchLength(radiusMm, lengthsIn)}${target && targetText(target, lengthsIn)}</dd></div>`}${facts(check, isBench, lengthsIn).map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>
<div class="drawing" role="region" aria-label="Drawing of the readings" tabindex="0">${readingsDrawing(stations, lengthsIn)}</div>
<p class="key"><span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="target" d="M4 8H28"/></svg>target</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="sign-good" d="M11 9L15 14L22 3"/></svg>good</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="sign-more" d="M10 14L16 2L22 14Z"/></svg>${isBench ? 'bend more' : 'too flat'}</span>
<span><svg class="plan" viewBox="0 0 32 16" aria-hidden="true"><path class="sign-ease" d="M10 2L16 14L22 2Z"/></svg>${isBench ? 'ease' : 'too sharp'}</span></p>
${findings.length > 0 && findingList(findings, lengthsIn)}
${proposal && proposalText(proposal, lengthsIn)}
<div class="scroll" role="region" aria-label="Results by station" tabindex="0">${stationTable(check, isBench, lengthsIn)}</div>
${assumptions.length > 0 && html`<p class="hint">Default values used: ${assumptions.map(({ field: name, value }, index) => html`${index > 0 && ', '}${ASSUMED[name] ?? name.slice(1)} ${inUnits(value, lengthsIn)}`)}.</p>`}
</section>`
}

const ASSUMED: Readonly<Record<string, string>> = {
  '/spacing': 'station spacing',
  '/resolution': 'reading accuracy',
  '/tolerancePct': 'tolerance',
}

function verdictText(
  { stations, largestThrowMm, findings }: BendCheck,
  isBench: boolean,
  lengthsIn: LengthsIn,
): Content {
  const slips = slipsIn(findings)
  const others = stations.filter(({ index }) => !slips.has(index))
  const verdict = verdictOf(others, largestThrowMm, isBench, lengthsIn)
  if (slips.size === 0) return verdict
  return html`<b>Measure ${counted(slips.size, 'reading')} again</b>, at station ${[...slips].join(', ')}. ${verdict}`
}

function verdictOf(
  stations: readonly StationCheck[],
  largestThrowMm: number | null,
  isBench: boolean,
  lengthsIn: LengthsIn,
): Content {
  const judged = stations.filter(({ verdict }) => verdict !== null)
  const count = (verdict: StationCheck['verdict']) => judged.filter((station) => station.verdict === verdict).length
  const wrong = judged.length - count('good')
  if (judged.length === 0) return 'These readings are not enough for a result yet: see below.'
  const off = [
    ...(count('bend-more') > 0 ? [`${count('bend-more')} ${isBench ? 'to bend more' : 'too flat'}`] : []),
    ...(count('ease') > 0 ? [`${count('ease')} ${isBench ? 'to ease' : 'too sharp'}`] : []),
  ].join(', ')
  if (isBench)
    return wrong === 0
      ? html`<b class="sound">Correct:</b> every reading matches its target, within tolerance and reading accuracy.`
      : html`<b>${counted(wrong, 'station')} of ${judged.length} off target:</b> ${off}.`
  if (largestThrowMm === null)
    return html`<b>${wrong === 0 ? 'Even' : `${counted(wrong, 'station')} of ${judged.length} off target`}</b>${off && `: ${off}`}.`
  if (wrong === 0)
    return html`<b class="sound">No change needed:</b> every deviation is within tolerance and reading accuracy.`
  return html`<b>${counted(wrong, 'station')} of ${judged.length} off target</b> (${off}). Moving the curve by at most ${ordinateLength(largestThrowMm, lengthsIn)} makes it even.`
}

function facts(check: BendCheck, isBench: boolean, lengthsIn: LengthsIn): [string, Content][] {
  const { stations, bestFitRadiusMm, turnedDeg, largestThrowMm } = check
  const isWhole = isBench || stations.every(({ targetOrdinateMm }) => targetOrdinateMm === null)
  return [
    [
      isWhole ? 'Best-fitting radius' : 'Radius of the longest even part',
      bestFitRadiusMm === null ? 'straight' : benchLength(Math.abs(bestFitRadiusMm), lengthsIn),
    ],
    ...(turnedDeg === null ? [] : [['Total turn', formatDegrees(Math.abs(turnedDeg))] as [string, Content]]),
    ...(largestThrowMm === null
      ? []
      : [['Largest throw', ordinateLength(largestThrowMm, lengthsIn)] as [string, Content]]),
  ]
}

function findingList(findings: readonly BendCheckFinding[], lengthsIn: LengthsIn): Html {
  const names: Readonly<Record<Severity, string>> = { stop: 'Stop', warn: 'Warning', note: 'Note' }
  return html`<ol class="findings">${findings.map(({ severity, message, cure }, index) => {
    const letter = lettersOf(index)
    return html`<li class="${severity}"><svg class="plan" viewBox="0 0 28 28" width="28" height="28" aria-hidden="true">${sign(severity, letter, { x: 14, y: 14 })}</svg>
<div><p class="where"><b>${letter}. ${names[severity]}</b></p><p>${inUnits(message, lengthsIn)}</p><p class="cure">${inUnits(cure, lengthsIn)}</p></div></li>`
  })}</ol>`
}

function proposalText({ bodies }: NonNullable<BendCheck['proposal']>, lengthsIn: LengthsIn): Html {
  const reach = (mm: number | null) => (mm === null ? 'beyond the readings' : benchLength(mm, lengthsIn))
  return html`<p>Proposed line: ${counted(bodies.length, 'part')} of constant curvature with easements before and after: ${bodies.map(
    ({ fromMm, toMm, ordinateMm, radiusMm }, index) =>
      html`${index > 0 && '; '}${radiusMm === null ? 'straight' : html`ordinate ${ordinateLength(ordinateMm, lengthsIn)}, radius ${benchLength(Math.abs(radiusMm), lengthsIn)}`}, from ${reach(fromMm)} to ${reach(toMm)}`,
  )}.</p>`
}
