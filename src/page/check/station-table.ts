import type { BendCheck, BendCheckFinding, StationCheck } from '../../bending/bend-check/types.ts'
import { formatFeetInches, formatMm } from '../../measure/length.ts'
import { type Content, type Html, html } from '../html.ts'
import { benchLength, type LengthsIn, ordinateLength } from '../show-length.ts'

/** The stations whose reading is to be measured again. */
export function slipsIn(findings: readonly BendCheckFinding[]): ReadonlySet<number> {
  return new Set(findings.filter(({ rule }) => rule === 'slip').flatMap(({ stations }) => stations))
}

/** The results by station. */
export function stationTable({ stations, findings }: BendCheck, isBench: boolean, lengthsIn: LengthsIn): Html {
  const slips = slipsIn(findings)
  const hasThrows = stations.some(({ throwMm }) => throwMm !== null)
  const ordinate = (mm: number | null) => (mm === null ? '–' : ordinateLength(mm, lengthsIn))
  const words: Readonly<Record<string, string>> = isBench
    ? { good: 'good', 'bend-more': 'bend more', ease: 'ease' }
    : { good: 'good', 'bend-more': 'too flat', ease: 'too sharp' }
  return html`<table class="figures checked"><thead><tr><th scope="col">Station</th><th scope="col">Distance</th><th scope="col">Reading</th><th scope="col">Target</th><th scope="col">Error</th><th scope="col">Local radius</th><th scope="col">Possible range</th><th scope="col">Result</th>${hasThrows && html`<th scope="col">Sum of errors</th><th scope="col">Move</th>`}</tr></thead>
<tbody>${stations.map(
    (station) =>
      html`<tr${station.verdict !== null && html` class="${station.verdict}"`}><th scope="row">${station.index}</th><td>${benchLength(station.atMm, lengthsIn)}</td><td>${station.ordinateMm === null ? 'not read' : ordinate(station.ordinateMm)}</td><td>${ordinate(station.targetOrdinateMm)}</td><td>${ordinate(station.deviationMm)}</td><td>${radiusThere(station, lengthsIn)}</td><td>${band(station, lengthsIn)}</td><td>${station.verdict === null ? '–' : slips.has(station.index) ? 'measure again' : words[station.verdict]}</td>${hasThrows && html`<td>${station.runningSumMm === null ? '–' : Number(station.runningSumMm.toFixed(2))}</td><td>${move(station.throwMm, lengthsIn)}</td>`}</tr>
`,
  )}</tbody></table>`
}

function radiusThere({ ordinateMm, radiusMm }: StationCheck, lengthsIn: LengthsIn): Content {
  if (ordinateMm === null) return '–'
  if (radiusMm === null) return 'straight'
  return html`${benchLength(Math.abs(radiusMm), lengthsIn)}${radiusMm < 0 && ' reversed'}`
}

/** The range of radii that the reading allows, in whole millimetres or sixteenths of an inch. */
function band({ radiusLowMm, radiusHighMm }: StationCheck, lengthsIn: LengthsIn): string {
  if (radiusLowMm === null) return '–'
  const size = (mm: number) => (lengthsIn === 'feet' ? formatFeetInches(Math.abs(mm)) : formatMm(Math.abs(mm), 0))
  return radiusHighMm === null ? `${size(radiusLowMm)} to straight` : `${size(radiusLowMm)} … ${size(radiusHighMm)}`
}

function move(throwMm: number | null, lengthsIn: LengthsIn): Content {
  if (throwMm === null) return '–'
  if (Math.abs(throwMm) < 0.005) return 'no move'
  return html`<b>${throwMm > 0 ? 'out' : 'in'}</b> ${ordinateLength(Math.abs(throwMm), lengthsIn)}`
}
