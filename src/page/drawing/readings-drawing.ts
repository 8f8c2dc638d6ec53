import type { StationCheck } from '../../bending/bend-check/types.ts'
import { formatFeetInches } from '../../measure/length.ts'
import { type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'
import { px } from './view.ts'

const LEFT = 74
const RIGHT = 14
const BARS = 170
const THROWS = 130
const WIDEST = 74
const NARROWEST = 15
const FULL = 880
/** Room for a label; with less, only every second, third … station is labelled. */
const LABEL = 42

/**
 * Readings as bars with their targets, one per station, and below them how far to move each station: an arrow up is out,
 * away from the centre, down is in. A sign above the bar shows the result.
 */
export function readingsDrawing(stations: readonly StationCheck[], lengthsIn: LengthsIn): Html {
  const column = Math.min(WIDEST, Math.max(NARROWEST, (FULL - LEFT - RIGHT) / stations.length))
  const width = LEFT + RIGHT + column * stations.length
  const middle = (index: number) => LEFT + column * (index + 0.5)
  const every = Math.ceil(LABEL / column)
  const values = stations.flatMap(({ ordinateMm, targetOrdinateMm }) => [ordinateMm ?? 0, targetOrdinateMm ?? 0])
  const [least, most] = [Math.min(0, ...values), Math.max(0, ...values)]
  const scale = BARS / Math.max(most - least, 1e-9)
  const top = 40
  const zero = top + most * scale
  const bottom = top + BARS
  const level = (mm: number) => zero - mm * scale
  const bar = Math.min(column * 0.62, 30)

  const bars = stations.map(({ index, ordinateMm, targetOrdinateMm, verdict }) => {
    const x = middle(index)
    const target =
      targetOrdinateMm !== null &&
      html`<path class="target" d="M${px(x - column * 0.44)} ${px(level(targetOrdinateMm))}h${px(column * 0.88)}"/>`
    if (ordinateMm === null) return html`${target}<text class="figure" x="${px(x)}" y="${px(zero - 6)}">?</text>`
    const [high, low] = [level(Math.max(0, ordinateMm)), level(Math.min(0, ordinateMm))]
    return html`<rect class="reading ${verdict ?? 'unjudged'}" x="${px(x - bar / 2)}" y="${px(high)}" width="${px(bar)}" height="${px(Math.max(low - high, 0.75))}"/>${target}${verdictSign(verdict, x)}`
  })
  const labels = stations
    .filter(({ index }) => index % every === 0)
    .map(
      ({ index, ordinateMm }) =>
        html`<text class="figure" x="${px(middle(index))}" y="${px(bottom + 18)}">${index}</text>${ordinateMm !== null && html`<text class="small figure" x="${px(middle(index))}" y="${px(bottom + 33)}">${shortLength(ordinateMm, lengthsIn)}</text>`}`,
    )
  const hasThrows = stations.some(({ throwMm }) => throwMm !== null)
  const height = bottom + 42 + (hasThrows ? THROWS + 34 : 0)
  const unit = lengthsIn === 'feet' ? 'in' : 'mm'
  return html`<svg class="plan readings" width="${px(width)}" height="${px(height)}" viewBox="0 0 ${px(width)} ${px(height)}" role="img" aria-label="Readings and their targets${hasThrows && ', and throws'}">
<path class="axis" d="M${LEFT} ${px(zero)}H${px(width - RIGHT)}"/>
${bars}
<text class="small" x="4" y="${px(bottom + 18)}">station</text><text class="small" x="4" y="${px(bottom + 33)}">reading, ${unit}</text>
${labels}
${hasThrows && throwArrows(stations, { middle, every, top: bottom + 58, width, lengthsIn })}
</svg>`
}

function verdictSign(verdict: StationCheck['verdict'], x: number): Html | null {
  if (verdict === 'bend-more') return html`<path class="sign-more" d="M${px(x - 6)} 26L${px(x)} 14L${px(x + 6)} 26Z"/>`
  if (verdict === 'ease') return html`<path class="sign-ease" d="M${px(x - 6)} 15L${px(x)} 27L${px(x + 6)} 15Z"/>`
  if (verdict === 'good') return html`<path class="sign-good" d="M${px(x - 5)} 21L${px(x - 1)} 26L${px(x + 6)} 15"/>`
  return null
}

interface ThrowView {
  readonly middle: (index: number) => number
  readonly every: number
  readonly top: number
  readonly width: number
  readonly lengthsIn: LengthsIn
}

function throwArrows(stations: readonly StationCheck[], { middle, every, top, width, lengthsIn }: ThrowView): Html {
  const largest = Math.max(...stations.map(({ throwMm }) => Math.abs(throwMm ?? 0)), 1e-9)
  const reach = THROWS / 2 - 22
  const zero = top + THROWS / 2
  const arrows = stations.map(({ index, throwMm }) => {
    if (throwMm === null) return null
    const x = middle(index)
    const tip = zero - (throwMm / largest) * reach
    const direction = throwMm > 0 ? 1 : -1
    const length = Math.abs(zero - tip)
    const head = Math.min(7, length)
    const label =
      index % every === 0 &&
      html`<text class="small figure" x="${px(x)}" y="${px(throwMm > 0 ? tip - 5 : tip + 14)}">${shortLength(Math.abs(throwMm), lengthsIn)}</text>`
    if (length < 0.5) return html`<circle class="still" cx="${px(x)}" cy="${px(zero)}" r="2.5"/>`
    return html`<path class="throw" d="M${px(x)} ${px(zero)}V${px(tip)}M${px(x - 4)} ${px(tip + direction * head)}L${px(x)} ${px(tip)}L${px(x + 4)} ${px(tip + direction * head)}"/>${label}`
  })
  return html`<path class="axis" d="M${LEFT} ${px(zero)}H${px(width - RIGHT)}"/>
<text class="small" x="4" y="${px(zero - 26)}">move out</text><text class="small" x="4" y="${px(zero + 34)}">move in</text>
${arrows}`
}

/** A short text for a length: tenths of a millimetre, or 64ths of an inch. */
function shortLength(mm: number, lengthsIn: LengthsIn): string {
  if (lengthsIn === 'feet') return formatFeetInches(mm, 64).replace(/ in$/, '')
  return String(Number(mm.toFixed(1)))
}
