import { html } from '../../page/html.ts'
import { asNumber, showExample } from './example.ts'

/** The track of the example, in one word. */
export const TRACK = 'S6ft_E2ft_Ld18ft-a45_E2ft_S1p2m'

/** The rail and its price, for the query before the track. */
export const OF_TRACK = 'section=250&material=brass&stick=6ft&stickPrice=14.50&unpriced=leave-out'

/** A track as one word, and what it needs. `ties` and `cost` are the answers for `TRACK`. */
export function wholeTrack(base: string, { ties, cost }: { ties: string; cost: string }) {
  return html`<section id="whole-track"><h2>A whole track in one cell</h2>
<p>Ties, sticks, joiners and cost belong to a whole track. Write it as one word, such as <code>${TRACK}</code>: its elements in order, with <code>_</code> between them.</p>
<div class="wide"><table><thead><tr><th scope="col">Write</th><th scope="col">For</th></tr></thead><tbody>
<tr><td><code>S6ft</code></td><td>a straight of 6 ft</td></tr>
<tr><td><code>E2ft</code></td><td>an easement of 2 ft, between its neighbours</td></tr>
<tr><td><code>Ld18ft-a45</code></td><td>an arc to the left, 18 ft diameter, through 45 degrees</td></tr>
<tr><td><code>Rr2p7m-l600</code></td><td>an arc to the right, 2.7 m radius, 600 mm long</td></tr>
<tr><td><code>7ft6-1o2in</code></td><td>7 ft 6-1/2 in: <code>o</code> is the bar of a fraction, <code>p</code> a decimal point, a number without unit millimetres</td></tr>
</tbody></table></div>
${showExample({
  id: 'track',
  given: [
    ['Service', base],
    ['Straight', 'S6ft'],
    ['Easement', 'E2ft'],
    ['Arc', 'Ld18ft-a45'],
    ['Easement', 'E2ft'],
    ['Straight', 'S1p2m'],
  ],
  formulas: [
    { label: 'Track', formula: () => '=B2&"_"&B3&"_"&B4&"_"&B5&"_"&B6', shows: TRACK },
    { label: 'Ties', formula: asNumber('WEBSERVICE(B1&"/v1/cell/ties?track="&B7)'), shows: ties },
    {
      label: 'Cost of the rail',
      formula: asNumber(`WEBSERVICE(B1&"/v1/cell/cost?${OF_TRACK}&track="&B7)`),
      shows: cost,
    },
  ],
})}
<p>The <a href="/docs/spreadsheets/longchord.xlsx">ready workbook</a> builds that word from a table of elements, with lengths as you would write them. The page of a plan shows it for each of its tracks, under “Track dimensions”. Forty elements fit in an address.</p></section>\n`
}
