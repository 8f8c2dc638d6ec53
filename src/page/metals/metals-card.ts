import type { ComparedMaterial, Comparison } from '../../estimate/questions/compare.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatFeetInches, formatMm } from '../../measure/length.ts'
import { faultText } from '../form/controls.ts'
import { attributes, type Html, html } from '../html.ts'
import { inUnits } from '../in-units.ts'
import { benchLength, gapLength, type LengthsIn } from '../show-length.ts'
import { counted, spoken } from '../words.ts'
import { type MetalPrice, type MetalToCompare, pricesGiven } from './metals-to-compare.ts'

export interface MetalsCard {
  readonly metals: readonly MetalToCompare[]
  /** Null until it is requested, or if it cannot be made. */
  readonly comparison: Comparison | null
  /** Paths are in the request: `materials`, then the number of the metal. */
  readonly faults: readonly Fault[]
  readonly lengthsIn: LengthsIn
}

/** The same track in other metals: prices to fill in, which belong to the form of the plan, and the comparison. */
export function metalsCard({ metals, comparison, faults, lengthsIn }: MetalsCard): Html {
  return html`<section class="card part metals${!comparison && ' no-print'}" id="metals" aria-labelledby="metals-title"><h2 id="metals-title">Other metals</h2>
<p class="hint no-print">Compare the same plan and rail section in other metals. Enter the price per stick, and leave lengths blank that are not sold in that metal. These prices are not saved with the plan.</p>
${faults.length > 0 && html`<ul class="errors" role="alert">${faults.map((fault) => html`<li>${metalOf(fault, metals)}${faultText(fault)}</li>`)}</ul>`}
<div class="scroll" role="region" aria-label="Table of metals" tabindex="0"><table class="figures">
<thead><tr><th scope="col">Metal</th><th scope="col" class="no-print">Price per stick</th>${comparison && COLUMNS.map((column) => html`<th scope="col">${column}</th>`)}</tr></thead>
<tbody>${metals.map((metal, index) => row(metal, comparison, index, faults, lengthsIn))}</tbody></table></div>
<p class="buttons no-print"><button form="plan" name="do" value="compare">Compare the metals</button></p>
${comparison && verdict(comparison, metals)}
</section>`
}

const COLUMNS = ['Total cost', 'Rail weight', 'Tightest bend', 'Expansion', 'Voltage drop at far end', 'Findings']

function row(
  { name, prices }: MetalToCompare,
  comparison: Comparison | null,
  index: number,
  faults: readonly Fault[],
  lengthsIn: LengthsIn,
): Html {
  const material = comparison?.materials[index]
  return html`<tr><th scope="row">${name}${material?.temper && html` <span class="hint">${material.temper}</span>`}</th>
<td class="no-print">${prices.length === 0 ? html`<span class="hint">as in the plan</span>` : prices.map((price) => priceField(price, name, isFaulty(faults, index, pricesGiven(prices).indexOf(price)), lengthsIn))}</td>${comparison && material && figures(material, comparison.currency, lengthsIn)}</tr>`
}

function priceField(
  { field, lengthMm, typed }: MetalPrice,
  metal: string,
  faulty: boolean,
  lengthsIn: LengthsIn,
): Html {
  const length = inUnits(`${formatMm(lengthMm)} (${formatFeetInches(lengthMm)})`, lengthsIn)
  return html`<label class="priced">${length} <input${attributes({ name: field, form: 'plan', value: typed, inputmode: 'decimal', size: 7, 'aria-label': `${metal}, price of ${length}`, 'aria-invalid': faulty ? 'true' : null })}></label>`
}

function figures(material: ComparedMaterial, currency: string, lengthsIn: LengthsIn): Html {
  const { cost, total, unpriced, railMassKg, forming, expansionPerMetreMm, dropV, findings } = material
  const without = unpriced.length > 0 && html` <span class="hint">excluding: ${unpriced.join('; ')}</span>`
  const counts = (['stop', 'warn', 'note'] as const)
    .filter((severity) => findings[severity] > 0)
    .map((severity) => counted(findings[severity], SEVERITIES[severity]))
  return html`<td>${cost === null ? html`${total} ${currency}${without}` : html`<b>${cost}</b> ${currency}`}</td><td>${railMassKg === null ? '–' : `${railMassKg.toFixed(2)} kg`}</td><td>${forming ? bend(forming, lengthsIn) : 'none'}</td><td>${expansionPerMetreMm === null ? '–' : growth(expansionPerMetreMm, lengthsIn)}</td><td>${dropV === null ? '–' : `${dropV.toFixed(2)} V`}</td><td>${counts.length === 0 ? 'none' : spoken(counts)}</td>`
}

function growth(perMetreMm: number, lengthsIn: LengthsIn): Html {
  return lengthsIn === 'feet'
    ? html`${gapLength(perMetreMm * METRES_PER_YARD, lengthsIn)} per yard`
    : html`${perMetreMm.toFixed(2)} mm per metre`
}

const METRES_PER_YARD = 0.9144

const SEVERITIES = { stop: 'stop', warn: 'warning', note: 'note' } as const

function bend({ formingRadiusMm, method }: NonNullable<ComparedMaterial['forming']>, lengthsIn: LengthsIn): Html {
  if (method === 'spring-in') return html`sprung in, not bent`
  const how = method === 'hand' ? 'by hand' : 'by machine'
  if (formingRadiusMm === null) return html`${how}`
  return html`${how}, radius under load ${benchLength(formingRadiusMm, lengthsIn)}`
}

/** Which metal is best in cost, weight and voltage drop, as far as known. */
function verdict({ least }: Comparison, metals: readonly MetalToCompare[]): Html | null {
  const sentences = metals.flatMap(({ name }, index) => {
    const points = [
      ...(least.cost === index ? ['costs least'] : []),
      ...(least.mass === index ? ['weighs least'] : []),
      ...(least.drop === index ? ['has the lowest voltage drop'] : []),
    ]
    return points.length === 0 ? [] : [`${name} ${spoken(points)}`]
  })
  return sentences.length === 0 ? null : html`<p>${sentences.join('. ')}.</p>`
}

function metalOf({ path: [part, index] }: Fault, metals: readonly MetalToCompare[]): string {
  const metal = part === 'materials' ? metals[Number(index)] : undefined
  return metal ? `${metal.name}: ` : ''
}

function isFaulty(faults: readonly Fault[], metal: number, stick: number): boolean {
  return faults.some(
    ({ path }) => path[0] === 'materials' && path[1] === metal && path[2] === 'sticks' && path[3] === stick,
  )
}
