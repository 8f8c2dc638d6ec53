import type { CalibrationAnswer } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import type { LengthsIn } from '../../show-length.ts'
import { depthLength, ordinateLength } from '../../show-length.ts'
import { counted } from '../../words.ts'

const DETERMINED = {
  well: 'well determined',
  fairly: 'fairly well determined',
  poorly: 'poorly determined: bend another offcut more tightly and measure it with a longer chord',
} as const

/** The results of the test bends; null if there are none. */
export function calibrationResult(calibration: CalibrationAnswer | null, lengthsIn: LengthsIn): Html | null {
  if (!calibration) return null
  const { effectiveYieldMpa, lowMpa, highMpa, determined, tells, consistent, readings, benderLine } = calibration
  const result =
    effectiveYieldMpa === null
      ? tells.includes('yield-or-offset')
        ? html`No yield strength matches these passes; the bender’s own calibration line is used all the same.`
        : html`The yield strength is that of the temper. What the passes took more or less in depth is put down to the bender.`
      : html`Your rail has a yield strength of <b>${effectiveYieldMpa.toFixed(0)} MPa</b> (${bandText(lowMpa, highMpa)}), ${DETERMINED[determined]}.`
  return html`<section class="calibration"><h3>Results of your test bends</h3>
<p>${result}${!consistent && html` <b>The test bends contradict each other</b> by more than reading errors can explain.`}</p>
${effectiveYieldMpa !== null && tells.includes('yield-or-offset') && html`<p>Passes alone do not tell a higher yield from play in the bender. The yield is given as if there was no play: depths for this bender are right, but radii to bend to by hand may not be. One test bend round a form tells the two apart.</p>`}
${benderLine && html`<p>Your bender, based on ${counted(benderLine.passes, 'pass', 'passes')}: depth = ${depthLength(benderLine.offsetMm, lengthsIn)} + ${benderLine.scale.toFixed(3)} × the estimated depth${benderLine.spreadMm !== null && html`; spread of the passes: ${ordinateLength(benderLine.spreadMm, lengthsIn)}`}.</p>`}
<table class="figures test-results"><thead><tr><th scope="col">Test bend</th><th scope="col">Yield</th><th scope="col">Range</th><th scope="col">Used</th></tr></thead>
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
