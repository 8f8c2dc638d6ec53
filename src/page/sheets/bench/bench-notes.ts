import { MOST_PASSES } from '../../../bending/roller/pass-schedule.ts'
import type { Bend } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, depthLength } from '../../show-length.ts'
import { elementNumber } from '../../words.ts'
import { type CardContext, elementsAt, railName } from './card-context.ts'
import { type Curve, type CurvePlace, groupPlaces } from './curves-by-radius.ts'
import { isSprungIn, springInNotes } from './spring-in.ts'

/** Notes below the figures: sprung in, by hand or by machine and why, test bends, roller ends, assembled track. */
export function benchNotes(curve: Curve, context: CardContext): Html {
  const notes = [
    ...methodNotes(curve, context),
    ...springInNotes(curve, context),
    ...(isSprungIn(curve) ? [] : [testBendWanted(curve), ...machineNotes(curve, context)]),
    ...assembledNotes(curve, context),
  ].filter((note) => note !== null)
  return listOf(notes)
}

/** Notes on rollers for a curve that is sprung in. */
export function rollerNotes(curve: Curve, context: CardContext): Html | null {
  const notes = machineNotes(curve, context)
  return notes.length === 0 ? null : listOf(notes)
}

function listOf(notes: readonly Html[]): Html {
  return html`<ul class="bench-notes">${notes.map((note) => html`<li>${note}</li>`)}</ul>`
}

/** Advice also depends on joints, so it may differ between curves of one radius. */
function methodNotes({ places }: Curve, context: CardContext): Html[] {
  const advice = groupPlaces(places, ({ outer, inner }) => [outer.forming.reason, inner.forming.reason])
  return advice.flatMap((group) => {
    const where = advice.length > 1 && html`In ${elementsAt(group.places, context)}: `
    return adviceOn(group.places[0]!).map((note, index) => html`${index === 0 && where}${note}`)
  })
}

const HOW = { 'spring-in': 'sprung in', hand: 'by hand', machine: 'by machine' } as const

function adviceOn({ outer, inner }: CurvePlace): Html[] {
  const why = ({ forming: { reason, basis } }: Bend) =>
    html`${reason}${basis === null && ' Based on the hardest temper.'}`
  const { method, reasonId, reason } = outer.forming
  if (reasonId !== inner.forming.reasonId)
    return [outer, inner].map(
      (bend) => html`${railName(bend.rail)} rail <b>${HOW[bend.forming.method]}</b>. ${why(bend)}`,
    )
  const ofOuter = reason !== inner.forming.reason && 'For the outer rail: '
  return [html`Both rails <b>${HOW[method]}</b>. ${ofOuter}${why(outer)}`]
}

function testBendWanted({ outer }: Curve): Html | null {
  if (outer.forming.basis !== null) return null
  return html`The temper of the rail is not known, so the forming radius is given as a range. Please make a <b>test bend</b>:
see <a href="#test-bend">the instructions above</a>. It gives you the exact forming radius, overbend and roller settings.`
}

const ENDS = {
  trim: 'the straight ends are cut off, and the cut list allows for it',
  'finish-by-hand': 'finish the straight ends by hand',
  'join-and-roll-through': 'join the sticks first, then roll through the joints',
} as const

const NO_MACHINE = {
  'no-rollers': null,
  'yield-unknown': 'No roller setting: it depends on the temper.',
  'span-too-long':
    'No roller setting: the span is too long. The rollers would have to press the rail deeper than half the span.',
  'before-touching':
    'No roller setting: according to your test passes, the rollers would not touch the rail. Make a test pass with a result near this radius.',
} as const

function machineNotes({ outer, inner }: Curve, { lengthsIn }: CardContext): Html[] {
  const why = outer.forming.noMachine ?? inner.forming.noMachine
  const missing = why === null ? null : NO_MACHINE[why]
  const notes = missing === null ? [] : [html`${missing}`]
  const machine = outer.forming.machine ?? inner.forming.machine
  if (!machine) return notes
  const { depthFrom, arcDepthMm, ends } = machine
  const upper =
    arcDepthMm !== null &&
    html` (upper limit for the outer rail, if it formed an arc between the rollers: ${depthLength(arcDepthMm, lengthsIn)})`
  const from =
    depthFrom === 'test-passes'
      ? html`Depths are based on your test passes`
      : html`Depths are a starting estimate: approach them in steps and measure each time${upper}`
  const isEndless = machine.passes.length === 0
  const endless = isEndless
    ? [html`With such small steps this takes more than ${MOST_PASSES} passes; they are not listed.`]
    : []
  return [...notes, html`${from}.`, ...endless, html`Rollers: ${ENDS[ends]}.`]
}

function assembledNotes({ inner, places }: Curve, { lengthsIn, severalTracks }: CardContext): Html[] {
  const { assembled } = inner.forming
  if (!assembled) return []
  const creeps = places.map(
    ({ track, element, creepMm }, index) =>
      html`${index > 0 && '; '}${creepMm !== null && benchLength(creepMm, lengthsIn)} in element ${elementNumber(element, track, severalTracks)}`,
  )
  return [
    html`Assembled track, held at its ${assembled.fixedEnd}: first cut the webs between the ties. The inner rail creeps past the outer at the ${assembled.trimAt}: ${creeps}. Cut off this excess there; it is waste.`,
  ]
}
