import type { MachineSetting } from '../../../bending/forming/types.ts'
import type { Bend, CutPiece } from '../../../estimate/answer.ts'
import { USUAL } from '../../../plan/usual.ts'
import { attributes, type Html, html } from '../../html.ts'
import type { WorkedPlan } from '../../pages/worked-plan.ts'
import { benchLength, depthLength, type LengthsIn, ordinateLength, turnsFigure } from '../../show-length.ts'
import { counted } from '../../words.ts'
import { markRow } from '../saw/piece-marks.ts'
import { PrintedPieces } from '../saw/printed-pieces.ts'
import { checkChord, chordName, chordsToHand } from './check-chord.ts'
import { easementPlaces, easementSetting } from './easement-places.ts'
import { cardOf, type FinishedCards, finishedCount, finishForm } from './finished-cards.ts'
import { passSteps } from './pass-steps.ts'
import { type BendOfPiece, type PieceToBend, piecesToBend, type StationOfPiece } from './pieces-to-bend.ts'

/** What all cards of a plan have in common. */
interface Bench {
  readonly lengthsIn: LengthsIn
  readonly printed: PrintedPieces
  readonly chordsMm: readonly number[]
  readonly resolutionMm: number
}

/** A card for each piece to bend, alike pieces together, with the steps in the order of the work; null if none is bent. */
export function pieceCards(
  { plan, estimate }: WorkedPlan,
  lengthsIn: LengthsIn,
  finished: FinishedCards | null = null,
): Html | null {
  const printed = new PrintedPieces(estimate.cutting.sticks)
  const { bent, straight } = piecesToBend(estimate, printed)
  if (bent.length === 0) return null
  const bench: Bench = {
    lengthsIn,
    printed,
    chordsMm: chordsToHand(plan.chords, lengthsIn),
    resolutionMm: plan.resolution ?? USUAL.resolution,
  }
  const cards = bent.map(({ marks, piece }) => cardOf(marks, piece.lengthMm))
  const tick = (index: number) => finished && finishForm(finished, cards, index, lengthsIn)
  return html`${finished && finishedCount(finished, cards)}<p class="hint">Marks are measured from the sawn end of the piece that is nearer the start of the track. Hold the chord, a straightedge, against
the inside of the bend at the rail head, after the rail has sprung back, and measure from it to the head.</p>
${straight.length > 0 && html`<p>Straight, nothing to bend: ${markRow(straight)}</p>`}
<div class="jobs pieces-to-bend">${bent.map((piece, index) => {
    const isDone = finished?.cards.has(cards[index]!)
    return html`<section${attributes({ class: isDone ? 'job finished' : 'job', id: finished && `card-${index}` })}>${pieceCard(piece, bench)}${tick(index)}</section>`
  })}</div>`
}

function pieceCard(toBend: PieceToBend, bench: Bench): Html {
  const { marks, piece, bends } = toBend
  const alike = marks.length > 1 && html` <span class="hint">${counted(marks.length, 'piece')} alike</span>`
  return html`<h3>${markRow(marks)}${alike}</h3>
<ol class="steps"><li><b>Saw to ${bench.printed.show(bench.lengthsIn, (of) => of(piece).sawMm)}</b></li>
${bends.filter(isLongEnough).map((bend) => bendSteps(bend, piece, bench))}
${trimStep(piece, bench)}</ol>`
}

/** The end of a bend that reaches less than this on to a piece is not worth a step, nor is a mark so near its end. */
const SHORTEST_MM = 10

function isLongEnough({ fromMm, toMm }: BendOfPiece): boolean {
  return toMm - fromMm >= SHORTEST_MM
}

/** Where to mark a bend, how to bend it, and how to check it. */
function bendSteps(bend: BendOfPiece, piece: CutPiece, bench: Bench): Html {
  const { fromMm, toMm, turn, stations } = bend
  const { lengthsIn, printed } = bench
  const mark = (onPieceMm: number, units = lengthsIn) => printed.show(units, (of) => of(piece).markMm(onPieceMm))
  if (stations !== null && bend.sprungIn)
    return html`<li><b>Easement</b>, ${turn}: do not bend it, spring it in with the curve</li>`
  if (stations !== null)
    return html`<li><b>Easement</b>, ${turn}, ${radiusText(bend.startRadiusMm, lengthsIn)} to ${radiusText(bend.endRadiusMm, lengthsIn)}: mark, and bend evenly to this ${easementSetting(stations)}${bend.leadsTo && easementPasses(bend.leadsTo, stations, lengthsIn)}${easementPlaces(stations, bend.leadsTo, lengthsIn, mark)}</li>`
  const whole = fromMm < SHORTEST_MM && toMm > piece.lengthMm - SHORTEST_MM
  const where = whole
    ? html`<b>No marks</b>: the whole piece`
    : html`<b>Mark ${mark(fromMm)}</b> and <b>${mark(toMm)}</b>`
  return html`<li>${where}, ${turn}, R ${inOneUnit(bend.curve.radiusMm, lengthsIn)}</li>
<li>${bendingText(bend.curve, lengthsIn)}</li>
<li>${checkText(bend.curve, toMm - fromMm, bench)}</li>`
}

function radiusText(mm: number | null | undefined, lengthsIn: LengthsIn): Html {
  return mm == null ? html`straight` : html`R ${inOneUnit(mm, lengthsIn)}`
}

/** A radius only says which curve it is: one unit is enough. */
function inOneUnit(mm: number, lengthsIn: LengthsIn): Html {
  return benchLength(mm, lengthsIn === 'both' ? 'metric' : lengthsIn)
}

/** By machine: depth, turns and passes; by hand: the radius to bend to; sprung in: nothing to bend. */
function bendingText({ forming }: Bend, lengthsIn: LengthsIn): Html {
  const { method, formingRadiusMm, band, machine, springIn } = forming
  const to =
    formingRadiusMm === null
      ? html`R ${benchLength(band.lowMm, lengthsIn)} to ${benchLength(band.highMm, lengthsIn)} under load; make a <a href="#test-bend">test bend</a> first`
      : html`R ${benchLength(formingRadiusMm, lengthsIn)} under load`
  if (method === 'spring-in') {
    const ends =
      springIn &&
      html`${benchLength(springIn.setEndsFromMm, lengthsIn)} to ${benchLength(springIn.setEndsToMm, lengthsIn)}`
    return html`<b>Do not bend</b>: spring it in, the ties hold it. Only set the last ${ends} before each joint in the curve by hand, to ${to}`
  }
  if (method === 'hand') return html`<b>Bend by hand</b> to ${to}`
  if (!machine) return html`<b>Bend by machine</b> to ${to}`
  const turns = machine.turns === null ? '' : html` · ${turnsFigure(machine.turns)} turns`
  const press = pressEvery(machine, lengthsIn)
  return html`<b>Bend</b> to depth <b>${depthLength(machine.depthMm, lengthsIn)}</b>${turns}${press}${passSteps(machine.passes, lengthsIn)}`
}

/** How far to move rail on between two presses. */
function pressEvery({ pressStepMm }: MachineSetting, lengthsIn: LengthsIn): Html | null {
  return pressStepMm === null ? null : html`, press every ${ordinateLength(pressStepMm, lengthsIn)}`
}

/** An easement goes through the passes of its curve, each only as deep as the place. */
function easementPasses(
  { forming: { machine } }: Bend,
  stations: readonly StationOfPiece[],
  lengthsIn: LengthsIn,
): Html | null {
  if (!machine || stations.every(({ depthMm }) => depthMm === null)) return null
  const passes = passSteps(machine.passes, lengthsIn)
  return html`${pressEvery(machine, lengthsIn)}${passes && html`${passes}; at a mark no deeper than its depth`}`
}

function checkText({ measuredRadiusMm }: Bend, bendMm: number, { chordsMm, resolutionMm, lengthsIn }: Bench): Html {
  const chord = checkChord(measuredRadiusMm, bendMm, chordsMm, resolutionMm)
  const link = (chordMm: number) =>
    html` <a class="no-print" href="/check?chord=${chordMm}&amp;acrossIs=radius&amp;across=${Number(measuredRadiusMm.toFixed(2))}">Check readings</a>`
  if (!chord) return html`<b>Check</b> with a template: too short for a chord`
  const { chordMm, midMm, quarterMm, eighthMm } = chord
  return html`<b>Check</b> on ${chordName(chordMm)}: middle <b>${ordinateLength(midMm, lengthsIn)}</b>, quarters ${ordinateLength(quarterMm, lengthsIn)}, eighths ${ordinateLength(eighthMm, lengthsIn)}${link(chordMm)}`
}

function trimStep(piece: CutPiece, { lengthsIn, printed }: Bench): Html | null {
  const { trimStartMm, trimEndMm } = piece
  if (trimStartMm < 0.05 && trimEndMm < 0.05) return null
  const atStart = printed.show(lengthsIn, (of) => of(piece).trimStartMm)
  const atEnd = printed.show(lengthsIn, (of) => of(piece).trimEndMm)
  const off =
    atStart.toString() === atEnd.toString()
      ? html`${atStart} off each end`
      : [
          trimStartMm >= 0.05 && html`${atStart} off the end nearer the start`,
          trimStartMm >= 0.05 && trimEndMm >= 0.05 && ', ',
          trimEndMm >= 0.05 && html`${atEnd} off the other end`,
        ]
  return html`<li><b>Trim to ${printed.show(lengthsIn, (of) => of(piece).finishedMm)}</b>: ${off}</li>`
}
