import { MOST_PASSES } from '../../bending/roller/pass-schedule.ts'
import type { Bend } from '../../estimate/answer.ts'
import { type Html, html } from '../html.ts'
import { benchLength, ordinateLength } from '../show-length.ts'
import { elementNumber } from '../words.ts'
import { type CardContext, elementsAt, railName } from './card-context.ts'
import { type Curve, type CurvePlace, placesBy } from './curves-alike.ts'

/** What a figure cannot say: by hand or by machine and why, test bends, the rollers' ends, springing in, assembled track. */
export function benchNotes(curve: Curve, context: CardContext): Html {
  const notes = [
    ...methodNotes(curve, context),
    testBendWanted(curve),
    ...machineNotes(curve, context),
    ...springInNotes(curve, context),
    ...assembledNotes(curve, context),
  ].filter((note) => note !== null)
  return html`<ul class="bench-notes">${notes.map((note) => html`<li>${note}</li>`)}</ul>`
}

/** Joints decide too, so that curves of one radius may be advised differently. */
function methodNotes({ places }: Curve, context: CardContext): Html[] {
  const advice = placesBy(places, ({ outer, inner }) => [outer.forming.reason, inner.forming.reason])
  return advice.flatMap((group) => {
    const where = advice.length > 1 && html`In ${elementsAt(group.places, context)}: `
    return adviceOn(group.places[0]!).map((note, index) => html`${index === 0 && where}${note}`)
  })
}

function adviceOn({ outer, inner }: CurvePlace): Html[] {
  const why = ({ forming: { reason, basis } }: Bend) =>
    html`${reason}${basis === null && ' Weighed for the hardest temper.'}`
  const { method, reasonId, reason } = outer.forming
  if (reasonId !== inner.forming.reasonId)
    return [outer, inner].map(
      (bend) => html`${railName(bend.rail)} rail <b>by ${bend.forming.method}</b>. ${why(bend)}`,
    )
  const ofOuter = reason !== inner.forming.reason && 'The outer: '
  return [html`Both rails <b>by ${method}</b>. ${ofOuter}${why(outer)}`]
}

function testBendWanted({ outer }: Curve): Html | null {
  if (outer.forming.basis !== null) return null
  return html`How hard the rail is drawn is not known, so this is a range and no single figure. Please make a <b>test bend</b>:
<a href="#test-bend">how</a> is told above. Radius, overbend and rollers then follow.`
}

const ENDS = {
  trim: 'the ends that stay straight are cut off, and the cut list allows for it',
  'finish-by-hand': 'finish by hand the ends that stay straight',
  'join-and-roll-through': 'join the sticks first and roll the joints through',
} as const

const NO_MACHINE = {
  'no-rollers': null,
  'yield-unknown': 'No setting of the rollers: it hangs on how hard the rail is drawn.',
  'span-too-long':
    'No setting of the rollers: they stand too far apart and would have to press the rail in deeper than half their span.',
  'before-touching':
    'No setting of the rollers: by the line of your test passes they would not even touch the rail. Make a test pass that comes out near this radius.',
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
    html`; were the loaded rail an arc between the rollers, the outer would take ${ordinateLength(arcDepthMm, lengthsIn)}`
  const from =
    depthFrom === 'test-passes'
      ? html`Depths are from your own test passes`
      : html`Depths are a starting estimate: creep up to them, measuring${upper}`
  const isEndless = machine.passes.length === 0
  const endless = isEndless ? [html`At so little a pass it takes over ${MOST_PASSES} passes; they are not listed.`] : []
  return [...notes, html`${from}.`, ...endless, html`Rollers: ${ENDS[ends]}.`]
}

function springInNotes({ outer, inner }: Curve, { lengthsIn }: CardContext): Html[] {
  const rails = [outer, inner].flatMap(({ rail, forming: { springIn } }) => (springIn ? [{ rail, springIn }] : []))
  const [first] = rails
  if (!first) return []
  const { tieSpacingMm, setEndsFromMm, setEndsToMm } = first.springIn
  const which = rails.length === 2 ? 'both rails' : `the ${first.rail} rail`
  const forces = rails.map(
    ({ rail, springIn }, index) => html`${index > 0 && ', '}${springIn.forcePairN.toFixed(0)} N (${rail})`,
  )
  return [
    html`Or <b>spring in</b> ${which} without bending: the last two ties at either end, ${benchLength(tieSpacingMm, lengthsIn)} apart, then hold it with a pair of forces, each ${forces}. Set the last ${benchLength(setEndsFromMm, lengthsIn)} to ${benchLength(setEndsToMm, lengthsIn)} of each stick all the same.`,
  ]
}

function assembledNotes({ inner, places }: Curve, { lengthsIn, severalTracks }: CardContext): Html[] {
  const { assembled } = inner.forming
  if (!assembled) return []
  const creeps = places.map(
    ({ track, element, creepMm }, index) =>
      html`${index > 0 && '; '}${creepMm !== null && benchLength(creepMm, lengthsIn)} in element ${elementNumber(element, track, severalTracks)}`,
  )
  return [
    html`Assembled track, held at its ${assembled.fixedEnd}: cut the webs between the ties first. The inner rail creeps out past the outer at the ${assembled.trimAt}, ${creeps}. Cut it off there; it is waste.`,
  ]
}
