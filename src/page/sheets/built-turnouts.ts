import type { Estimate } from '../../estimate/answer.ts'
import { type Html, html } from '../html.ts'
import { benchLength, type LengthsIn } from '../show-length.ts'

/**
 * What turnouts that are built by hand take beyond what is listed elsewhere: the rails of their other legs, and where there
 * is power, how frogs are fed (common practice, no source). Null where there are none.
 */
export function builtTurnouts({ tracks, power }: Estimate, lengthsIn: LengthsIn): Html | null {
  const built = tracks
    .filter(({ state }) => state === 'new')
    .flatMap(({ elements }) => elements.flatMap(({ turnout }) => (turnout?.onBillAs === null ? [turnout] : [])))
  if (built.length === 0) return null
  return html`<ul class="bench-notes">${built.map(({ name, enters, leaves, lengthMm, divergingLengthMm, ties }) => {
    const along = enters === 'points' ? leaves : enters
    const [leg, mm] = along === 'diverging' ? ['through', lengthMm] : ['diverging', divergingLengthMm]
    return html`<li><b>${name}</b> is built by hand: cut two rails of ${benchLength(mm, lengthsIn)} for its ${leg} leg, which are neither in the cut list nor in the shopping list. It has ${ties.length} ties of its own.${
      power !== null &&
      ' If its frog is one piece of metal, part it from the other rails by insulated joiners and feed it through a switch that is thrown with the points.'
    }</li>`
  })}</ul>`
}
