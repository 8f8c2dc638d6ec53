import { bentStretches, stretchesBetween } from '../../laying/bend-marks.ts'
import type { Run } from '../../laying/cutting/cut-plan.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'

/**
 * A rail for the cut plan: its length and, where bending costs rail, the trim of each of its pieces.
 *
 * Whether a bend is advised by machine can depend on where the joints are, and those on the trim. So only the plan
 * decides: with a roller bender whose ends are to be trimmed, every piece with a bend is trimmed.
 */
export function runOf(track: LaidTrack, side: 'left' | 'right', plan: Pick<Plan, 'bender' | 'gauge' | 'section'>): Run {
  const rail = track.rails[side]
  const { roller, ends, work } = plan.bender
  const endsMm = roller && ends === 'trim' ? roller.spanMm : 0
  if (endsMm === 0 && work !== 'assembled') return { lengthMm: rail.lengthMm }

  const stretches = bentStretches(track.placed, rail)
  const apartMm = plan.gauge + plan.section.headWidthMm
  return {
    lengthMm: rail.lengthMm,
    /**
     * A bent piece loses the straight half span at each end. In assembled track both rails are cut to the same length,
     * and the inner rail is trimmed by its creep: (gauge + headWidth)·Δ, Δ the angle on the piece.
     */
    trimMm: (fromMm, toMm) => {
      const onPiece = stretchesBetween(stretches, fromMm, toMm)
      if (onPiece.length === 0) return 0
      if (work !== 'assembled') return endsMm
      const creepMm = onPiece
        .filter(({ turn }) => turn === side)
        .reduce((sum, { fromMm: a, toMm: b, element }) => {
          const share = (Math.min(b, toMm) - Math.max(a, fromMm)) / (b - a)
          return sum + share * apartMm * Math.abs(element.turnedRad)
        }, 0)
      return endsMm + creepMm
    },
  }
}
