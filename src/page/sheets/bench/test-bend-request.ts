import { type Html, html } from '../../html.ts'
import { type LengthsIn, lengthText } from '../../show-length.ts'
import { editLink, type SheetLinks } from '../sheet-links.ts'
import type { Curve } from './curves-by-radius.ts'

/** Instructions for a test bend if the temper of the rail is not known; null if it is known. */
export function testBendRequest(curves: readonly Curve[], lengthsIn: LengthsIn, links: SheetLinks): Html | null {
  const tightest = curves[0]?.inner.forming
  if (!tightest || tightest.basis !== null) return null
  const { lowMm, highMm } = tightest.band
  const tryMm = Math.round(Math.sqrt(lowMm * highMm) / 10) * 10
  return html`<section class="card notice ask" id="test-bend"><h3>Make one test bend to get exact figures</h3>
<p>Springback depends on the temper of the rail, which is not known yet. So the cards below give ranges: for the tightest rail,
from ${lengthText(lowMm, lengthsIn)} to ${lengthText(highMm, lengthsIn)}. An offcut and five minutes are enough for a test bend:</p>
<ol>
<li>Take an offcut from the same delivery, at least ${lengthText(500, lengthsIn === 'both' ? 'metric' : lengthsIn)} long. Wear eye protection.</li>
<li>Bend it around a form of known radius, about ${lengthText(tryMm, lengthsIn)}: a board sawn to an arc, a wheel, a drum. Hold it tight against the form. The
radius under load is the radius of the form plus half the foot width.</li>
<li>Release it slowly and lay it on a table. Hold a straightedge of length c against the inside of the bend at the head, and measure the gap m in the
middle.</li>
<li>Enter the radius under load, the chord and the gap (the ordinate) under ${editLink(links, 'Test bends of this rail', 'rail.calibration')}.</li>
</ol>
<p>With a roller bender: roll the offcut once at a known depth, measure it, and enter depth or turns, chord and ordinate. Two passes at
different depths also calibrate the bender. Passes alone do not tell a harder rail from play in the bender; one bend around a form does. Or choose the ${editLink(links, 'temper', 'rail.temper')} if the seller states it.</p></section>`
}
