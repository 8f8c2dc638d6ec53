import type { FeedAnswer, PowerAnswer, RoadbedAnswer } from '../../estimate/answer.ts'
import { type Content, type Html, html } from '../html.ts'
import { benchLength, gardenLength, type LengthsIn } from '../show-length.ts'

type Fact = readonly [name: string, value: Content]

/** The bed of ballast in figures, and how much of it each track takes. */
export function roadbedTables({ kind, filledTo, section, ...bed }: RoadbedAnswer, lengthsIn: LengthsIn): Html {
  const litres = (value: number) => `${value.toFixed(1)} L`
  const facts: Fact[] = [
    ['Width at the top', benchLength(section.crownWidthMm, lengthsIn)],
    ['Width at the bottom', benchLength(section.baseWidthMm, lengthsIn)],
    ['Depth of ballast', benchLength(section.heightMm, lengthsIn)],
    ['In place, settled', litres(bed.inPlaceL)],
    ['Taken up by ties', filledTo === 'tie-top' ? litres(bed.tiesL) : 'none, it ends below them'],
    [`To bring, ${bed.shrinkagePct} % for settling`, html`<b>${litres(bed.volumeL)}</b>`],
    ['It weighs', html`<b>${(bed.massKg / 1000).toFixed(3)} t</b>`],
    ...(bed.bags === null ? [] : [['In bags', html`<b>${bed.bags}</b>`] as const]),
  ]
  return html`<h3>${kind === 'raised' ? 'Raised bed' : 'Bed in a trench'}</h3>
${factTable('The bed', facts)}
${
  bed.tracks.length > 1 &&
  html`<table class="figures way"><thead><tr><th scope="col">Track</th><th scope="col">In place</th><th scope="col">To bring</th></tr></thead>
<tbody>${bed.tracks.map(({ track, inPlaceL, volumeL }) => html`<tr><th scope="row">${track}</th><td>${litres(inPlaceL)}</td><td>${litres(volumeL)}</td></tr>`)}</tbody></table>`
}`
}

/** The rails as conductors: what reaches the far end, and where feeders go. */
export function powerTables(power: PowerAnswer, lengthsIn: LengthsIn): Html {
  const { currentA, supplyVoltageV, allowedDropV, railOhmPerM, feeder, blocks, wireMm } = power
  const facts: Fact[] = [
    ['Drawn at once', `${currentA} A at ${supplyVoltageV} V`],
    ['May be lost on the way', volts(allowedDropV)],
    ['One rail', `${(railOhmPerM * 1000).toFixed(2)} mΩ to the metre`],
    ...(feeder
      ? ([
          ['Feeder, there and back', `${(feeder.resistanceOhm * 1000).toFixed(1)} mΩ, drops ${volts(feeder.dropV)}`],
          ['Single wire in all', wireMm === null ? 'none will do' : html`<b>${gardenLength(wireMm, lengthsIn)}</b>`],
        ] as const)
      : []),
  ]
  return html`<h3>Current in the rails</h3>
${factTable('The supply', facts)}
<div class="scroll" role="region" aria-label="Feeders" tabindex="0"><table class="figures way">
<thead><tr><th scope="col">Track</th><th scope="col">At the far end, fed at one place</th><th scope="col">Feeders</th><th scope="col">First from the end</th><th scope="col">Then every</th><th scope="col">Most that is lost</th></tr></thead>
<tbody>${blocks.map((block) => feedRow(block, lengthsIn))}</tbody></table></div>
<p class="hint">Reckoned with one train that draws the whole current wherever least reaches it, between the two nearest feeders half-way.</p>`
}

function feedRow({ track, farEndV, feeders, endMm, spacingMm, worstDropV }: FeedAnswer, lengthsIn: LengthsIn): Html {
  const place = (mm: number | null) => (mm === null ? '–' : gardenLength(mm, lengthsIn))
  return html`<tr><th scope="row">${track}</th><td>${volts(farEndV)}</td><td><b>${feeders ?? 'none will do'}</b></td><td>${place(endMm)}</td><td>${place(spacingMm)}</td><td>${worstDropV === null ? '–' : volts(worstDropV)}</td></tr>`
}

function factTable(caption: string, facts: readonly Fact[]): Html {
  return html`<table class="figures way"><caption class="unseen">${caption}</caption>
<tbody>${facts.map(([name, value]) => html`<tr><th scope="row">${name}</th><td>${value}</td></tr>`)}</tbody></table>`
}

function volts(value: number): string {
  return `${value.toFixed(2)} V`
}
