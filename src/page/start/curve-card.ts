import type { CurveAnswer } from '../../estimate/questions/one-curve.ts'
import { readCurve } from '../../estimate/questions/read-curve.ts'
import { piecesToCover } from '../../measure/counting.ts'
import { parseLength } from '../../measure/length.ts'
import { USUAL } from '../../plan/usual.ts'
import type { Workers } from '../../workers/workers.ts'
import { faultText } from '../form/controls.ts'
import { type Html, html } from '../html.ts'
import { faultInUnits } from '../in-units.ts'
import { chordName } from '../sheets/bench/check-chord.ts'
import { benchLength, formatMetres, type LengthsIn, ordinateLength } from '../show-length.ts'
import { counted } from '../words.ts'
import type { Started } from './started.ts'

/** How to bend each of the curves that a plan starts with; null where none was given. */
export function curveCard({ curves, ...started }: Started, workers: Workers): Html | null {
  if (curves.length === 0) return null
  return html`<section class="card" id="started" aria-labelledby="started-title"><h2 id="started-title">Bending your curves</h2>
<div class="scroll" role="region" aria-label="Table of curves" tabindex="0"><table class="figures">
<thead><tr><th scope="col">Curve, diameter</th><th scope="col">How it is bent</th><th scope="col">Radius under load, outer rail</th><th scope="col">Mid-ordinate, outer and inner rail</th><th scope="col">Rail for a full circle</th></tr></thead>
<tbody>${curves.map((diameter) => curveRow(diameter, started, workers))}</tbody></table></div>
<p class="hint">Joints and stock come with the whole plan. The table of elements below offers these sizes.</p></section>`
}

function curveRow(
  diameter: string,
  { section, material, stick, lengthsIn }: Omit<Started, 'curves'>,
  workers: Workers,
): Html {
  const read = readCurve({ diameter: asLength(diameter), rail: { section, material } })
  const result = read.ok ? workers.bendCurve(read.curve) : read
  if (!result.ok)
    return html`<tr><th scope="row">${diameter}</th><td colspan="4"><p class="fault">${result.faults.map((fault) => faultText(faultInUnits(fault, lengthsIn)))}</p></td></tr>`
  const { curve } = result
  return html`<tr><th scope="row">${diameter}</th><td>${howBent(curve)}</td><td>${underLoad(curve, lengthsIn)}</td><td>${ordinates(curve, lengthsIn)}</td><td>${fullCircle(curve, stick)}</td></tr>`
}

/** NaN where it cannot be read; the form says so. */
function lengthOf(stick: string): number {
  if (stick === '') return USUAL.stick.length
  const length = asLength(stick)
  if (typeof length === 'number') return length
  const read = parseLength(length)
  return read.ok ? read.mm : Number.NaN
}

/** A bare number is millimetres, as in a plan. */
function asLength(text: string): string | number {
  return /^\d+(?:\.\d+)?$/.test(text) ? Number(text) : text
}

function howBent({ rails: [outer] }: CurveAnswer): string {
  return { 'spring-in': 'sprung in; set the ends of each stick', hand: 'by hand', machine: 'by machine' }[
    outer!.forming.method
  ]
}

function underLoad({ rails: [outer] }: CurveAnswer, lengthsIn: LengthsIn): Html {
  const { formingRadiusMm, band } = outer!.forming
  if (formingRadiusMm !== null) return html`${benchLength(formingRadiusMm, lengthsIn)}`
  return html`${benchLength(band.lowMm, lengthsIn)} to ${benchLength(band.highMm, lengthsIn)}`
}

function ordinates({ rails }: CurveAnswer, lengthsIn: LengthsIn): Html {
  const [outer, inner] = rails.map(
    ({ ordinates, recommendedChordMm }) =>
      ordinates.find(({ chordMm }) => chordMm === recommendedChordMm) ?? ordinates.at(-1),
  )
  if (!outer || !inner) return html`no chord fits`
  if (outer.chordMm !== inner.chordMm)
    return html`${ordinateLength(outer.midMm, lengthsIn)} over ${chordName(outer.chordMm)}, ${ordinateLength(inner.midMm, lengthsIn)} over ${chordName(inner.chordMm)}`
  return html`${ordinateLength(outer.midMm, lengthsIn)} and ${ordinateLength(inner.midMm, lengthsIn)} over ${chordName(outer.chordMm)}`
}

/** Both rails of a circle: 2π·(R + r) of their middle lines, and how many whole sticks are at least as long. */
function fullCircle({ rails }: CurveAnswer, stick: string): string {
  const railMm = rails.reduce((sum, { radiusMm }) => sum + 2 * Math.PI * radiusMm, 0)
  const stickMm = lengthOf(stick)
  const sticks = stickMm > 0 ? `, at least ${counted(piecesToCover(railMm, stickMm), 'stick')}` : ''
  return `${formatMetres(railMm, 1)}${sticks}`
}
