import { type Html, html } from '../html.ts'
import { type LengthsIn, lengthText } from '../show-length.ts'
import type { Curve } from './curves-alike.ts'

/** Nobody knows how hard the rail is: what follows from that, and how to find out. Null where it is known. */
export function testBendRequest(curves: readonly Curve[], lengthsIn: LengthsIn): Html | null {
  const tightest = curves[0]?.inner.forming
  if (!tightest || tightest.basis !== null) return null
  const { lowMm, highMm } = tightest.band
  const tryMm = Math.round(Math.sqrt(lowMm * highMm) / 10) * 10
  return html`<section class="card notice ask" id="test-bend"><h3>One test bend, and the ranges below become figures</h3>
<p>How far rail springs back hangs on how hard it was drawn, and nobody has said that yet. So the cards below tell a range: for the tightest rail
anything from ${lengthText(lowMm, lengthsIn)} to ${lengthText(highMm, lengthsIn)}. An offcut and five minutes settle it:</p>
<ol>
<li>Take an offcut of the same delivery, half a metre (20 in) or longer. Eye protection on.</li>
<li>Bend it round something round of known radius, ${lengthText(tryMm, lengthsIn)} or so: a board sawn to an arc, a wheel, a drum. Hold it tight against it. The
radius it is bent to is that of the form and half the foot’s width.</li>
<li>Let it go slowly, lay it on a table, hold a straightedge c long against the hollow side of its head and measure how far the head stands off the
middle, m. It keeps the radius c²/8m + m/2, and half the head’s width.</li>
<li>Enter both under <a href="#rail.calibration">Test bends of this very rail</a>.</li>
</ol>
<p>With a roller bender: roll the offcut once at a depth you note down, measure it, and enter depth or turns, chord and ordinate. Two passes of
different depth tell that bender’s own habits as well. Or choose the <a href="#rail.temper">temper</a>, where the seller states it.</p></section>`
}
