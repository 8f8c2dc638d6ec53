import type { FigureKind, Kinds } from '../../fitting/figures/figure.ts'
import { ORIGIN } from '../../fitting/figures/figure.ts'
import { toRadians } from '../../measure/angle.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { completeStandards } from '../../plan/completing/standards.ts'
import type { Assumption } from '../../plan/fields/assumption.ts'
import { SILENT } from '../../plan/fields/complete.ts'
import { meantName } from '../../plan/fields/nearest.ts'
import { FIGURE_WORDS } from '../../plan/rows/figures.ts'
import type { Standards } from '../../plan/rows/standards.ts'
import type { Turn } from '../../plan/rows/track.ts'
import type { TurnoutTypeInput } from '../../plan/rows/turnouts.ts'
import { USUAL } from '../../plan/usual.ts'
import { mirrored } from '../../track/turnout/leg.ts'
import { turnoutOf } from '../../track/turnout/turnout.ts'
import type { TurnoutGeometry } from '../../track/turnout/types.ts'
import type { Pose } from '../../track/types.ts'
import { type FigureQuestion, USUAL_RAIL } from './read-figure.ts'

/** Room for cars up to about 150 mm wide on both tracks: common practice, no source. */
const USUAL_SPACING_MM = 200
/** Room for an engine and a car: own choice, no source. */
const USUAL_TAIL_MM = 1000
const USUAL_ANGLE_DEG = 90

type Hand = TurnoutTypeInput['hand']

/** What a figure leaves open. Each is worked out when a figure asks for it, so that nothing is assumed for other figures. */
export class FigureDefaults {
  readonly assumptions: Assumption[] = []
  readonly faults: Fault[] = []
  readonly side: Turn
  readonly gaugeMm: number
  private readonly question: FigureQuestion
  private readonly standards: Standards
  private readonly found = new Map<Hand, FigureKind>()
  private closureMm = 0

  constructor(question: FigureQuestion) {
    const { asked, plan, railGiven } = question
    this.question = question
    this.gaugeMm = plan.gauge ?? USUAL.gauge
    this.standards = completeStandards(plan.standards ?? {}, SILENT)
    if (!railGiven)
      this.assume('rail', `code ${USUAL_RAIL.section} ${USUAL_RAIL.material}`, 'not given: for the checks alone')
    this.side = asked.side ?? this.usualSide()
  }

  private assume(field: string, value: string, reason: string): void {
    this.assumptions.push({ field: `/${field}`, value, reason })
  }

  private usualSide(): Turn {
    const { asked, plan } = this.question
    const has = (hand: Turn) => asked[hand] !== undefined || plan.turnoutTypes?.some((type) => type.hand === hand)
    const onlyRight =
      asked.right !== undefined ? asked.left === undefined && !has('left') : has('right') && !has('left')
    const side = onlyRight ? 'right' : 'left'
    this.assume('side', side, onlyRight ? 'not given: all turnouts are right-handed' : 'not given')
    return side
  }

  start(): Pose {
    const { start } = this.question.asked
    if (!start) this.assume('start', 'x 0 mm, y 0 mm, heading 0°', 'not given')
    return start ? { xMm: start.x ?? 0, yMm: start.y ?? 0, headingRad: toRadians(start.heading ?? 0) } : ORIGIN
  }

  spacingMm(): number {
    const { spacing } = this.question.asked
    if (spacing === undefined)
      this.assume('spacing', formatMm(USUAL_SPACING_MM), 'not given: room for cars up to about 150 mm wide')
    return spacing ?? USUAL_SPACING_MM
  }

  spacings(): { spacingMm: number; foulingMm: number } {
    const spacingMm = this.spacingMm()
    const { fouling } = this.question.asked
    if (fouling === undefined) this.assume('fouling', formatMm(spacingMm, 4), 'not given: the track spacing')
    return { spacingMm, foulingMm: fouling ?? spacingMm }
  }

  /** To be asked for after the kinds of turnout. */
  radiusMm(): number {
    const { radius } = this.question.asked
    if (radius !== undefined) return radius
    const minimumMm = this.standards.minimumRadius ?? 0
    const isOfTurnouts = this.closureMm > minimumMm
    const usual = isOfTurnouts ? this.closureMm : minimumMm
    this.assume(
      'radius',
      formatMm(usual, 4),
      `not given: ${isOfTurnouts ? 'that of the turnouts' : 'the minimum radius'}`,
    )
    return usual
  }

  betweenMm(): number {
    return this.standards.minimumTangentBetweenReverseCurves ?? 0
  }

  tailMm(): number {
    const { clear } = this.question.asked
    if (clear === undefined) this.assume('clear', formatMm(USUAL_TAIL_MM), 'not given: room for an engine and a car')
    return clear ?? USUAL_TAIL_MM
  }

  angleDeg(): number {
    const { angle } = this.question.asked
    if (angle === undefined) this.assume('angle', `${USUAL_ANGLE_DEG}°`, 'not given')
    return angle ?? USUAL_ANGLE_DEG
  }

  kinds(): Kinds {
    return { near: this.near(), far: this.kind(this.side === 'left' ? 'right' : 'left') }
  }

  near(): FigureKind {
    return this.kind(this.side)
  }

  /** Null where none is asked for: then a turnout of a hand does. */
  wyeKind(): FigureKind | null {
    return this.question.asked.wye === undefined ? null : this.kind('wye')
  }

  private kind(hand: Hand): FigureKind {
    const there = this.found.get(hand)
    if (there) return there
    const type = this.typeFor(hand)
    const worked = type && turnoutOf(type, this.gaugeMm)
    const kind = worked?.ok ? { id: type!.id, legs: legsToTheLeft(hand, worked.turnout) } : NO_KIND
    if (worked?.ok) this.closureMm = Math.max(this.closureMm, worked.turnout.closureRadiusMm)
    this.found.set(hand, kind)
    if (hand !== 'wye' && !this.question.asked.curve && kind.legs.through.pieces.some((piece) => piece.startCurvature))
      this.faults.push({ path: [hand], ...bothLegsCurve(kind) })
    return kind
  }

  private typeFor(hand: Hand): TurnoutTypeInput | undefined {
    const { asked, plan } = this.question
    const types = plan.turnoutTypes ?? []
    const called = hand === 'wye' ? 'a wye turnout' : `a ${hand}-hand turnout`
    const id = asked[hand]
    if (id === undefined) {
      const first = types.find((type) => type.hand === hand)
      if (first) this.assume(hand, first.id, `not given: the first ${hand}-hand kind`)
      else
        this.faults.push({
          path: [hand],
          code: 'missing',
          detail: `a ${FIGURE_WORDS[asked.figure].toLowerCase()} on the ${this.side} needs ${called}`,
          hint: 'list one under turnoutTypes',
        })
      return first
    }
    const type = types.find((each) => each.id === id)
    if (!type) this.faults.push({ path: [hand], ...unknownKind(id, types) })
    else if (type.hand !== hand)
      this.faults.push({
        path: [hand],
        code: 'contradictory',
        detail: `"${id}" is not ${called}`,
        hint: `give the id of a kind with "hand": "${hand}"`,
      })
    return type?.hand === hand ? type : undefined
  }
}

/** Stands for a kind that has been found missing, so that all that is missing is found. */
const NO_LEG = { pieces: [], lengthMm: 1, end: { xMm: 1, yMm: 0.5, headingRad: 0.5 } }
const NO_KIND: FigureKind = { id: '', legs: { through: NO_LEG, diverging: NO_LEG } }

function legsToTheLeft(hand: Hand, { legs }: TurnoutGeometry): FigureKind['legs'] {
  if (hand !== 'right') return legs
  return { through: mirrored(legs.through), diverging: mirrored(legs.diverging) }
}

function bothLegsCurve({ id }: FigureKind): Omit<Fault, 'path'> {
  return {
    code: 'contradictory',
    detail: `both legs of "${id}" curve, and this figure lies on a straight`,
    hint: 'use a turnout with a straight leg; a crossover between curved tracks has curve as well',
  }
}

function unknownKind(id: string, types: readonly TurnoutTypeInput[]): Omit<Fault, 'path'> {
  const meant = meantName(
    id,
    types.map((type) => type.id),
  )
  const known = types.map((type) => `"${type.id}"`).join(', ')
  return {
    code: 'unknown-value',
    detail: `there is no kind of turnout "${id}" in turnoutTypes`,
    hint: meant
      ? `did you mean "${meant}"?`
      : types.length === 0
        ? 'list it under turnoutTypes'
        : `use one of ${known}`,
  }
}
