import type { CalibrationAnswer } from '../../estimate/answer.ts'
import { formatMm } from '../../measure/length.ts'
import { type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'
import { ordinateLength } from '../show-length.ts'
import { counted } from '../words.ts'

const DETERMINED = {
  well: 'which is well determined',
  fairly: 'which is fairly determined',
  poorly: 'which is poorly determined: bend another offcut, tighter, and measure it over a longer chord',
} as const

/** What the test bends told; null without any. */
export function calibrationResult(calibration: CalibrationAnswer | null, lengthsIn: LengthsIn): Html | null {
  if (!calibration) return null
  const { effectiveYieldMpa, lowMpa, highMpa, determined, consistent, readings, benderLine } = calibration
  const told =
    effectiveYieldMpa === null
      ? html`No yield explains these passes; the bender’s own line stands all the same.`
      : html`Your rail yields at <b>${effectiveYieldMpa.toFixed(0)} MPa</b> (${bandText(lowMpa, highMpa)}), ${DETERMINED[determined]}.`
  return html`<section class="calibration"><h3>What your test bends told</h3>
<p>${told}${!consistent && html` <b>The test bends contradict one another</b> by more than their readings can be off.`}</p>
${benderLine && html`<p>Your bender, from ${counted(benderLine.passes, 'pass', 'passes')}: depth = ${formatMm(benderLine.offsetMm, 2)} + ${benderLine.scale.toFixed(3)} × the estimate${benderLine.spreadMm !== null && html`; the passes lie ${ordinateLength(benderLine.spreadMm, lengthsIn)} about it`}.</p>`}
<table class="figures tests-told"><thead><tr><th scope="col">Test bend</th><th scope="col">Yield</th><th scope="col">Between</th><th scope="col">Used</th></tr></thead>
<tbody>${readings.map(
    ({ yieldMpa, lowMpa: low, highMpa: high, used }, index) =>
      html`<tr><th scope="row">${index + 1}</th><td>${yieldMpa === null ? '–' : `${yieldMpa.toFixed(0)} MPa`}</td><td>${yieldMpa === null ? '–' : bandText(low, high)}</td><td>${used ? 'yes' : 'no'}</td></tr>`,
  )}</tbody></table></section>`
}

function bandText(lowMpa: number | null, highMpa: number | null): string {
  if (lowMpa === null && highMpa === null) return 'not bounded'
  if (lowMpa === null) return `up to ${highMpa!.toFixed(0)} MPa`
  if (highMpa === null) return `${lowMpa.toFixed(0)} MPa or more`
  return `${lowMpa.toFixed(0)} to ${highMpa.toFixed(0)} MPa`
}
