import type { Finding } from '../../checking/finding.ts'
import type { Fault } from '../../measure/fault.ts'
import { lettersOf } from '../../measure/letters.ts'
import { FIGURE_WORDS, type FigureName } from '../../plan/rows/figures.ts'
import { planDrawing } from '../drawing/plan-drawing.ts'
import { planToDraw } from '../drawing/plan-to-draw.ts'
import {
  faultNote,
  faultText,
  fieldRow,
  fieldsBut,
  open,
  optionOf,
  type Placed,
  rowsOf,
  textAt,
} from '../form/controls.ts'
import { attributes, type Html, html } from '../html.ts'
import { faultInUnits, inUnits } from '../in-units.ts'
import { type LengthsIn, lengthText } from '../show-length.ts'
import { aboutFigure, FIGURE_SHAPES, FIGURES_ON_PAGE, type FiguresTyped, PREFIX, WHERE_WORDS } from './figure-fields.ts'
import type { FigureTried } from './try-figure.ts'

export interface FiguresShown {
  readonly typed: FiguresTyped
  /** The one whose button was pressed. */
  readonly tried: FigureTried | null
}

/** Figures to be put into the plan: where, and for each its fields, and its drawing once it was asked for. */
export function figureFold(plan: Placed, { typed, tried }: FiguresShown, action: string): Html {
  const tracks = rowsOf(plan, 'tracks').map((track, index) => textAt(track, 'name') || `track ${index + 1}`)
  const faults = new Map(
    (tried?.faults ?? []).map((fault) => [String(fault.path[0]), faultInUnits(fault, plan.lengthsIn)]),
  )
  const note = (name: string) => faultNote(`${PREFIX}${name}`, faults.has(name) ? [faults.get(name)!] : [])
  const words = Object.entries(WHERE_WORDS).map(([value, label]) => ({ value, label }))
  return html`<details class="card" id="figure"${open(tried !== null)}>
<summary>Add a siding, yard or loop <span class="hint">laid out for you; also crossover, wye, second track, junction</span></summary>
<div class="fields">
<div class="field"><label for="figure.track">Into track</label><select id="figure.track" name="figure.track">${tracks.map((name, index) => optionOf({ value: String(index), label: name }, typed.track))}</select>${note('track')}</div>
<div class="field"><label for="figure.where">Where</label><select id="figure.where" name="figure.where">${words.map((word) => optionOf(word, typed.where))}</select><span class="hint">a straight becomes shorter; what follows an element moves</span>${note('where')}</div>
<div class="field"><label for="figure.element">Number of that element</label><input id="figure.element" name="figure.element" inputmode="numeric"${attributes({ value: typed.element || null })}><span class="hint">blank: the longest straight</span>${note('element')}</div>
<div class="field"><label for="figure.number">Frog number</label><input id="figure.number" name="figure.number" inputmode="decimal" value="${typed.number}"><span class="hint">for turnouts, if the plan has no kind of that hand yet</span>${note('turnoutTypes')}</div>
</div>
${FIGURES_ON_PAGE.map((figure) => oneFigure(figure, plan, typed, tried?.figure === figure ? tried : null, action))}
</details>`
}

function oneFigure(
  figure: FigureName,
  plan: Placed,
  typed: FiguresTyped,
  tried: FigureTried | null,
  action: string,
): Html {
  const path = `${PREFIX}${figure}`
  const shape = FIGURE_SHAPES[figure]!
  const faults = new Map<string, Fault[]>()
  for (const fault of tried?.faults ?? []) {
    const name = String(fault.path[0])
    if (OF_PLACE.includes(name)) continue
    const key = ['radius', 'diameter'].includes(name) ? 'across' : name
    const place = key in shape.cells ? `${path}.${key}` : path
    faults.set(place, [...(faults.get(place) ?? []), faultInUnits(inFormTerms(fault), plan.lengthsIn)])
  }
  const placed: Placed = { part: typed.parts[figure]!, path, faults, shape, lengthsIn: plan.lengthsIn }
  const name = FIGURE_WORDS[figure]
  return html`<details id="${path}"${open(tried !== null)}>
<summary>${name} <span class="hint">${aboutFigure(figure)}</span></summary>
${faults.has(path) && html`<p class="fault">${faults.get(path)!.map(faultText)}</p>`}
${fieldRow(placed, fieldsBut(placed))}
<p class="below"><button class="small" name="do" value="figure show ${figure}" formaction="${action}#${path}">Show the ${name.toLowerCase()}</button></p>
${tried?.worked && preview(tried.worked, figure, plan.lengthsIn, action)}
</details>`
}

/** Faults that are told beside the place, or the frog number. */
const OF_PLACE: readonly string[] = ['track', 'where', 'element', 'turnoutTypes']

function preview(
  { answer, plan, estimate }: NonNullable<FigureTried['worked']>,
  figure: FigureName,
  lengthsIn: LengthsIn,
  action: string,
): Html {
  const { measures, findings } = answer
  return html`<div class="drawing" role="region" aria-label="The figure alone" tabindex="0">${planDrawing(planToDraw(plan, estimate), findings, lengthsIn, { id: 'figure' })}</div>
<ul>${measures.slice(0, -1).map(({ name, valueMm }) => html`<li>${name}: ${lengthText(valueMm, lengthsIn)}</li>`)}</ul>
${found(findings, lengthsIn)}
<p class="below"><button name="do" value="figure put ${figure}" formaction="${action}#drawing">Add it to the plan</button></p>`
}

/** With the letters of the drawing; what is found several times is told once. */
function found(findings: readonly Finding[], lengthsIn: LengthsIn): Html | null {
  const letters = new Map<string, string[]>()
  for (const [index, { severity, message, track }] of findings.entries()) {
    // What concerns the plan as a whole is not about the figure.
    if (track === null) continue
    const words = `${severity}: ${inUnits(message, lengthsIn)}`
    letters.set(words, [...(letters.get(words) ?? []), lettersOf(index)])
  }
  if (letters.size === 0) return null
  return html`<p>What an estimate finds in it:</p><ul>${[...letters].map(([words, at]) => html`<li><b>${at.join(', ')}</b> ${words}</li>`)}</ul>`
}

/** A field that is missing has its name in the plan in the hint; here it stands beside its field. */
function inFormTerms(fault: Fault): Fault {
  return fault.code === 'missing' ? { ...fault, hint: 'fill it in' } : fault
}
