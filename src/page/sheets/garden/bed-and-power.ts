import type { FeedAnswer, PowerAnswer, RoadbedAnswer } from '../../../estimate/answer.ts'
import { type Content, type Html, html } from '../../html.ts'
import { benchLength, gardenLength, type LengthsIn } from '../../show-length.ts'

type Fact = readonly [name: string, value: Content]

/** Dimensions and quantities of the ballast bed, and the quantity for each track. */
export function roadbedTables({ kind, filledTo, section, ...bed }: RoadbedAnswer, lengthsIn: LengthsIn): Html {
  const litres = (value: number) => `${value.toFixed(1)} L`
  const facts: Fact[] = [
    ['Top width', benchLength(section.crownWidthMm, lengthsIn)],
    ['Bottom width', benchLength(section.baseWidthMm, lengthsIn)],
    ['Depth of ballast', benchLength(section.heightMm, lengthsIn)],
    ['Volume in place, settled', litres(bed.inPlaceL)],
    ['Volume of ties in it', filledTo === 'tie-top' ? litres(bed.tiesL) : 'none: the ballast ends below them'],
    [`Loose ballast needed, including ${bed.shrinkagePct} % settlement`, html`<b>${litres(bed.volumeL)}</b>`],
    ['Weight', html`<b>${(bed.massKg / 1000).toFixed(3)} t</b>`],
    ...(bed.bags === null ? [] : [['Bags', html`<b>${bed.bags}</b>`] as const]),
  ]
  return html`<h3>${kind === 'raised' ? 'Ballast, raised bed' : 'Ballast in a trench'}</h3>
${factTable('Ballast bed', facts)}
${
  bed.tracks.length > 1 &&
  html`<table class="figures ballast-power one-line"><thead><tr><th scope="col">Track</th><th scope="col">In place</th><th scope="col">Loose, needed</th></tr></thead>
<tbody>${bed.tracks.map(({ track, inPlaceL, volumeL }) => html`<tr><th scope="row">${track}</th><td>${litres(inPlaceL)}</td><td>${litres(volumeL)}</td></tr>`)}</tbody></table>`
}`
}

/** Voltage drop in the rails, and where feeders go. */
export function powerTables(power: PowerAnswer, heading: boolean, lengthsIn: LengthsIn): Html {
  const { currentA, supplyVoltageV, allowedDropV, railOhmPerM, feeder, blocks, wireMm } = power
  const facts: Fact[] = [
    ['Total train current', `${currentA} A at ${supplyVoltageV} V`],
    ['Allowed voltage drop', volts(allowedDropV)],
    [
      'Resistance of one rail',
      lengthsIn === 'feet'
        ? `${(railOhmPerM * METRES_PER_FOOT * 1000).toFixed(2)} mΩ per foot`
        : `${(railOhmPerM * 1000).toFixed(2)} mΩ per metre`,
    ],
    ...(feeder
      ? ([
          ['Feeder, both wires', `${(feeder.resistanceOhm * 1000).toFixed(1)} mΩ, drop ${volts(feeder.dropV)}`],
          [
            'Total length of single wire',
            wireMm === null ? 'not possible' : html`<b>${gardenLength(wireMm, lengthsIn)}</b>`,
          ],
        ] as const)
      : []),
  ]
  return html`${heading && html`<h3>Track power</h3>`}
${factTable('Power supply', facts)}
<div class="scroll" role="region" aria-label="Feeders" tabindex="0"><table class="figures ballast-power one-line">
<thead><tr><th scope="col">Track</th><th scope="col">Voltage at the far end, one feeder</th><th scope="col">Feeders</th><th scope="col">First feeder from the end</th><th scope="col">Feeder spacing</th><th scope="col">Largest drop</th></tr></thead>
<tbody>${blocks.map((block) => feedRow(block, isOneOfSeveral(block, blocks), lengthsIn))}</tbody></table></div>
<p class="hint">Calculated for one train that draws the full current at the worst place; between two feeders, that is midway.</p>`
}

function isOneOfSeveral({ track }: FeedAnswer, blocks: readonly FeedAnswer[]): boolean {
  return blocks.filter((block) => block.track === track).length > 1
}

function feedRow(block: FeedAnswer, oneOfSeveral: boolean, lengthsIn: LengthsIn): Html {
  const { track, fromMm, toMm, farEndV, feeders, endMm, spacingMm, worstDropV } = block
  const from = oneOfSeveral && html`, from ${gardenLength(fromMm, lengthsIn)} to ${gardenLength(toMm, lengthsIn)}`
  const place = (mm: number | null) => (mm === null ? '–' : gardenLength(mm, lengthsIn))
  return html`<tr><th scope="row">${track}${from}</th><td>${volts(farEndV)}</td><td><b>${feeders ?? 'not possible'}</b></td><td>${place(endMm)}</td><td>${place(spacingMm)}</td><td>${worstDropV === null ? '–' : volts(worstDropV)}</td></tr>`
}

function factTable(caption: string, facts: readonly Fact[]): Html {
  return html`<dl class="facts" aria-label="${caption}">
${facts.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>`
}

const METRES_PER_FOOT = 0.3048

function volts(value: number): string {
  return `${value.toFixed(2)} V`
}
