import type { ElementAnswer, TrackAnswer } from '../../estimate/answer.ts'
import { formatFeetInches } from '../../measure/length.ts'
import { headWidthMm, planToDraw, specialTrackIn } from '../../page/drawing/plan-to-draw.ts'
import type { LengthsIn } from '../../page/show-length.ts'
import { elementNumber, kindName } from '../../page/words.ts'
import type { AskedTemplate, PaperFault, PlanOnPaper } from '../../paper/papers.ts'
import type { CoupledCar } from '../../room/coupled-cars.ts'
import { chordTemplate } from './chord-template.ts'
import { curveTemplate } from './curve-template.ts'
import { envelopeTemplate } from './envelope-template.ts'
import type { Template } from './template.ts'
import { turnoutTemplate } from './turnout-template.ts'

type Wanted = { readonly ok: true; readonly template: Template } | { readonly ok: false; readonly fault: PaperFault }

/** The template that is asked for, or what of the question does not fit the plan. */
export function wantedTemplate(of: PlanOnPaper, asked: AskedTemplate, lengthsIn: LengthsIn): Wanted {
  const tracks =
    asked.track === undefined ? of.estimate.tracks : of.estimate.tracks.filter(({ name }) => name === asked.track)
  if (tracks.length === 0) {
    const names = of.estimate.tracks.map(({ name }) => name)
    return unknown(
      'track',
      `no track of the plan is called ${quoted(asked.track!)}`,
      `there are ${names.slice(0, 10).map(quoted).join(', ')}`,
    )
  }
  if (asked.template === 'turnout') return ofTurnout(of, asked, tracks, lengthsIn)
  const found = curveAmong(tracks, asked)
  if (!found.ok) return found
  if (asked.template === 'chord') return ofChord(of, asked, found, lengthsIn)
  return asked.template === 'curve' ? ofCurve(of, found, lengthsIn) : ofEnvelope(of, asked, found, lengthsIn)
}

function unknown(parameter: PaperFault['parameter'], detail: string, hint: string): { ok: false; fault: PaperFault } {
  return { ok: false, fault: { parameter, code: 'unknown-value', detail, hint } }
}

function quoted(name: string): string {
  return `"${name}"`
}

interface Curve {
  readonly ok: true
  readonly track: TrackAnswer
  readonly element: ElementAnswer
}

/** The element that is asked for, or the first arc. */
function curveAmong(
  tracks: readonly TrackAnswer[],
  { element: number, template }: AskedTemplate,
): Curve | { ok: false; fault: PaperFault } {
  const isCurve = ({ kind }: ElementAnswer) => kind === 'arc' || (kind === 'easement' && template !== 'chord')
  if (number === undefined) {
    for (const track of tracks) {
      const element = track.elements.find(({ kind }) => kind === 'arc')
      if (element) return { ok: true, track, element }
    }
    return unknown('template', 'there is no curve of one radius', 'a straight needs no template')
  }
  const track = tracks[0]!
  const element = track.elements[number]
  if (!element)
    return unknown('element', `track ${quoted(track.name)} has ${track.elements.length} elements`, 'the first is 0')
  if (isCurve(element)) return { ok: true, track, element }
  const curves = track.elements.filter(isCurve).map(({ index }) => index)
  const kind = kindName(element.kind).toLowerCase()
  return unknown(
    'element',
    `element ${number} of track ${quoted(track.name)} is ${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`,
    curves.length > 0 ? `use one of ${curves.slice(0, 20).join(', ')}` : 'use another track',
  )
}

function nameOf(of: PlanOnPaper, { track, element }: Curve): string {
  const { tracks } = of.estimate
  const number = elementNumber(element.index, tracks.indexOf(track), tracks.length > 1)
  return `${kindName(element.kind)} ${number} of ${track.name}`
}

function ofCurve(of: PlanOnPaper, curve: Curve, lengthsIn: LengthsIn): Wanted {
  const drawn = planToDraw(of.plan, of.estimate)
  const { placed } = drawn.tracks[of.estimate.tracks.indexOf(curve.track)]!
  const sticks = of.estimate.cutting.sticks.map(({ lengthMm }) => lengthMm)
  const mostMm = sticks.length > 0 ? Math.max(...sticks) : Number.POSITIVE_INFINITY
  const about = { mostMm, name: nameOf(of, curve), lengthsIn }
  return { ok: true, template: curveTemplate(placed[curve.element.index]!, drawn, about) }
}

function ofChord(
  of: PlanOnPaper,
  { rail = 'outer', chord }: AskedTemplate,
  curve: Curve,
  lengthsIn: LengthsIn,
): Wanted {
  const bend = of.estimate.bends.find(
    (each) =>
      !each.turnout && each.track === curve.track.name && each.element === curve.element.index && each.rail === rail,
  )
  if (!bend) return unknown('element', 'the estimate says nothing of how this curve is bent', 'use another curve')
  const { measuredRadiusMm, recommendedChordMm, ordinates } = bend
  const chordMm = chord ?? recommendedChordMm ?? ordinates[0]?.chordMm
  if (chordMm === undefined) return unknown('chord', 'no chord of the plan fits this curve', 'give a shorter one')
  if (chordMm > 2 * measuredRadiusMm) {
    const detail = `it is longer than the diameter, ${(2 * measuredRadiusMm).toFixed(1)} mm (${formatFeetInches(2 * measuredRadiusMm)})`
    return { ok: false, fault: { parameter: 'chord', code: 'out-of-range', detail, hint: 'use a shorter chord' } }
  }
  const name = `Chord gauge for the ${rail} rail of ${nameOf(of, curve).replace(/^\w/, (letter) => letter.toLowerCase())}`
  return { ok: true, template: chordTemplate(measuredRadiusMm, chordMm, { name, lengthsIn }) }
}

/** Of the car that is asked for, or the longest. */
function ofEnvelope(of: PlanOnPaper, asked: AskedTemplate, curve: Curve, lengthsIn: LengthsIn): Wanted {
  const cars = (of.plan.cars ?? []).map(
    ({ name, length, truckCentres, width, couplerLength = 0 }): CoupledCar => ({
      ...{ name, lengthMm: length, truckCentresMm: truckCentres, widthMm: width, couplerMm: couplerLength },
    }),
  )
  const car =
    asked.car === undefined
      ? cars.toSorted((a, b) => b.lengthMm - a.lengthMm)[0]
      : cars.find(({ name }) => name === asked.car)
  if (!car) {
    if (cars.length === 0)
      return unknown('template', 'the plan has no cars', 'add cars to the plan, or use template=curve')
    const names = cars.map(({ name }) => quoted(name)).join(', ')
    return unknown('car', `no car of the plan is called ${quoted(asked.car!)}`, `there are ${names}`)
  }
  const drawn = planToDraw(of.plan, of.estimate)
  const track = drawn.tracks[of.estimate.tracks.indexOf(curve.track)]!
  const name = `Room of ${car.name} on ${nameOf(of, curve).replace(/^\w/, (letter) => letter.toLowerCase())}`
  const template = envelopeTemplate(track, track.placed[curve.element.index]!, drawn, { name, car, lengthsIn })
  if (template) return { ok: true, template }
  const detail = `${car.name} is too long for this curve: its trucks cannot stand on it`
  return {
    ok: false,
    fault: { parameter: 'car', code: 'out-of-range', detail, hint: 'choose a shorter car or a wider curve' },
  }
}

function ofTurnout(
  { plan }: PlanOnPaper,
  asked: AskedTemplate,
  tracks: readonly TrackAnswer[],
  lengthsIn: LengthsIn,
): Wanted {
  const special = specialTrackIn(plan)
  const all = tracks.flatMap((track) => track.elements.flatMap(({ turnout }) => (turnout ? [{ track, turnout }] : [])))
  const found = asked.turnout === undefined ? all[0] : all.find(({ turnout }) => turnout.name === asked.turnout)
  if (!found) {
    const names = all.slice(0, 20).map(({ turnout }) => quoted(turnout.name))
    return asked.turnout === undefined
      ? unknown('template', 'there is no turnout', 'use template=curve, or a plan with turnouts')
      : unknown(
          'turnout',
          `no turnout is called ${quoted(asked.turnout)}`,
          names.length > 0 ? `there are ${names.join(', ')}` : 'there are none',
        )
  }
  const { track, turnout } = found
  const { gaugeMm } = special
  const geometry = special.turnouts.get(turnout.type)!
  const name = `${turnout.name}, ${turnout.type}`
  const { tieSpacingMm } = track
  const about = { name, geometry, gaugeMm, headWidthMm: headWidthMm(plan.rail.section), tieSpacingMm, lengthsIn }
  return { ok: true, template: turnoutTemplate(about) }
}
