import type { CutPiece, CutStick } from '../../../estimate/answer.ts'
import { LENGTH_SLACK_MM } from '../../../measure/counting.ts'
import { MM_PER_INCH } from '../../../measure/length.ts'
import type { Html } from '../../html.ts'
import { type LengthsIn, sawnLength } from '../../show-length.ts'

/** The lengths of a piece as they are printed, mm: whole steps of the rule they are measured with. */
export interface PrintedPiece {
  readonly sawMm: number
  readonly trimStartMm: number
  readonly trimEndMm: number
  readonly finishedMm: number
  /** Where a place of the piece, given from its finished start, is marked from the sawn end. */
  markMm(fromStartMm: number): number
}

/** What a length is rounded to at the bench, and the gaps between pieces in the garden. */
interface Rule {
  readonly stepMm: number
  readonly gapStepMm: number
}

const RULES = {
  metric: { stepMm: 0.1, gapStepMm: 0.01 },
  feet: { stepMm: MM_PER_INCH / 32, gapStepMm: MM_PER_INCH / 1000 },
} as const satisfies Record<string, Rule>

/** The end of a piece may be this far from where it is drawn before the rounding of its length is turned the other way. */
const OFF_MM = 0.5

/** The printed lengths of all pieces, in the units of the page. */
export class PrintedPieces {
  private readonly metric: ReadonlyMap<CutPiece, PrintedPiece>
  private readonly feet: ReadonlyMap<CutPiece, PrintedPiece>

  constructor(sticks: readonly CutStick[]) {
    this.metric = printedPieces(sticks, RULES.metric)
    this.feet = printedPieces(sticks, RULES.feet)
  }

  /** A length of a piece; also one that is added up from several, each as it is printed. */
  show(lengthsIn: LengthsIn, of: (printed: (piece: CutPiece) => PrintedPiece) => number): Html {
    return sawnLength(
      of((piece) => this.metric.get(piece)!),
      of((piece) => this.feet.get(piece)!),
      lengthsIn,
    )
  }

  /** What is printed of two pieces that are sawn alike. */
  keyOf(piece: CutPiece): unknown {
    return [this.metric, this.feet].map((printed) => {
      const { sawMm, finishedMm } = printed.get(piece)!
      return [sawMm.toFixed(2), finishedMm.toFixed(2)]
    })
  }
}

/**
 * Lengths rounded so that roundings do not add up along a rail. Each piece is laid where the printed lengths and gaps
 * before it lead to; where rounding its own length as usual would leave its end more than `OFF_MM` from where it is
 * drawn, it is rounded to the step that brings it nearest.
 */
function printedPieces(sticks: readonly CutStick[], rule: Rule): Map<CutPiece, PrintedPiece> {
  const printed = new Map<CutPiece, PrintedPiece>()
  const whole = new Set(sticks.filter(isWhole).flatMap(({ pieces }) => pieces))
  const rounded = (mm: number) => Math.round(mm / rule.stepMm) * rule.stepMm
  for (const rail of railsOf(sticks)) {
    let [atMm, drawnMm] = [rail[0]!.fromMm, rail[0]!.fromMm]
    for (const piece of rail) {
      const { fromMm, lengthMm, sawLengthMm } = piece
      const gapMm = fromMm - drawnMm
      atMm += Math.round(gapMm / rule.gapStepMm) * rule.gapStepMm
      const [trimStartMm, trimEndMm] = [rounded(piece.trimStartMm), rounded(piece.trimEndMm)]
      const isTrimmed = piece.trimStartMm + piece.trimEndMm > LENGTH_SLACK_MM
      drawnMm = fromMm + lengthMm
      const usual = rounded(lengthMm)
      const nearest = Math.abs(atMm + usual - drawnMm) <= OFF_MM ? usual : rounded(drawnMm - atMm)
      const finishedMm = whole.has(piece) && !isTrimmed ? lengthMm : nearest
      const lateMm = atMm - fromMm
      printed.set(piece, {
        sawMm: whole.has(piece) ? sawLengthMm : trimStartMm + finishedMm + trimEndMm,
        trimStartMm,
        trimEndMm: whole.has(piece) ? sawLengthMm - trimStartMm - finishedMm : trimEndMm,
        finishedMm,
        markMm: (mm) => {
          if (mm <= LENGTH_SLACK_MM) return trimStartMm
          if (mm >= lengthMm - LENGTH_SLACK_MM) return trimStartMm + finishedMm
          return trimStartMm + mm - lateMm
        },
      })
      atMm += finishedMm
    }
  }
  return printed
}

/** A stick that one piece takes up, so that no saw touches it. */
export function isWhole({ pieces, kerfMm, offcutMm }: CutStick): boolean {
  return pieces.length === 1 && kerfMm <= LENGTH_SLACK_MM && offcutMm <= LENGTH_SLACK_MM
}

/** The pieces of each rail, from its start. */
function railsOf(sticks: readonly CutStick[]): CutPiece[][] {
  const rails = new Map<string, CutPiece[]>()
  for (const piece of sticks.flatMap(({ pieces }) => pieces)) {
    const key = JSON.stringify([piece.track, piece.turnout ?? piece.rail])
    rails.set(key, [...(rails.get(key) ?? []), piece])
  }
  return [...rails.values()].map((pieces) => pieces.sort((a, b) => a.fromMm - b.fromMm))
}
