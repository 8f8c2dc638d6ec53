import type { Bend } from '../../estimate/answer.ts'
import { type Html, html } from '../html.ts'
import { benchLength, ordinateLength } from '../show-length.ts'
import { elementNumber } from '../words.ts'
import { type CardContext, railName } from './card-context.ts'
import type { Curve } from './curves-alike.ts'

/** What a figure cannot say: by hand or by machine and why, test bends, the rollers' ends, springing in, assembled track. */
export function benchNotes(curve: Curve, context: CardContext): Html {
  const notes = [
    ...methodNotes(curve),
    testBendWanted(curve),
    ...machineNotes(curve, context),
    ...springInNotes(curve, context),
    ...assembledNotes(curve, context),
  ].filter((note) => note !== null)
  return html`<ul class="bench-notes">${notes.map((note) => html`<li>${note}</li>`)}</ul>`
}

function methodNotes({ outer, inner }: Curve): Html[] {
  const how = ({ forming: { method, reason, basis } }: Bend, rail: string) =>
    html`${rail} <b>by ${method}</b>: ${reason}${basis === null && ' Weighed for the hardest temper.'}`
  if (outer.forming.reason === inner.forming.reason && outer.forming.method === inner.forming.method)
    return [how(outer, 'Both rails')]
  return [outer, inner].map((bend) => how(bend, `${railName(bend.rail)} rail`))
}

function testBendWanted({ outer }: Curve): Html | null {
  if (outer.forming.basis !== null) return null
  return html`How hard the rail is drawn is not known, so this is a range and no single figure. Please make a <b>test bend</b>: bend an offcut,
let it go, and enter what it was bent to and what it kept under <a href="#edit">Bending</a>. Radius, overbend and rollers then follow.`
}

const ENDS = {
  trim: 'the ends that stay straight are cut off, and the cut list allows for it',
  'finish-by-hand': 'finish by hand the ends that stay straight',
  'join-and-roll-through': 'join the sticks first and roll the joints through',
} as const

function machineNotes({ outer }: Curve, { lengthsIn }: CardContext): Html[] {
  const { machine } = outer.forming
  if (!machine) return []
  const { depthFrom, arcDepthMm, ends } = machine
  const upper =
    arcDepthMm !== null &&
    html`; were the loaded rail an arc between the rollers, the outer would take ${ordinateLength(arcDepthMm, lengthsIn)}`
  const from =
    depthFrom === 'test-passes'
      ? html`Depths are from your own test passes`
      : html`Depths are a starting estimate: creep up to them, measuring${upper}`
  return [html`${from}.`, html`Rollers: ${ENDS[ends]}.`]
}

function springInNotes({ outer, inner }: Curve, { lengthsIn }: CardContext): Html[] {
  return [outer, inner].flatMap(({ rail, forming: { springIn } }) => {
    if (!springIn) return []
    const { forcePairN, tieSpacingMm, setEndsFromMm, setEndsToMm } = springIn
    return [
      html`${railName(rail)} rail may be <b>sprung in</b> without bending: its last two ties at either end, ${benchLength(tieSpacingMm, lengthsIn)} apart, hold it with ${forcePairN.toFixed(0)} N each, one way and the other. Set the last ${benchLength(setEndsFromMm, lengthsIn)} to ${benchLength(setEndsToMm, lengthsIn)} of each stick all the same.`,
    ]
  })
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
