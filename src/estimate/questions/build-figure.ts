import { crossover } from '../../fitting/figures/crossover.ts'
import { curvedCrossover } from '../../fitting/figures/curved-crossover.ts'
import { doubleLadder } from '../../fitting/figures/double-ladder.ts'
import { mirroredTracks, movedTracks, Names } from '../../fitting/figures/elements.ts'
import type { FigureFault, FigureMeasure, FigureResult } from '../../fitting/figures/figure.ts'
import { junction } from '../../fitting/figures/junction.ts'
import { ladder } from '../../fitting/figures/ladder.ts'
import { parallel } from '../../fitting/figures/parallel.ts'
import { passingLoop } from '../../fitting/figures/passing-loop.ts'
import { reverseLoop } from '../../fitting/figures/reverse-loop.ts'
import { wye } from '../../fitting/figures/wye.ts'
import { toRadians } from '../../measure/angle.ts'
import type { Fault } from '../../measure/fault.ts'
import type { Assumption } from '../../plan/fields/assumption.ts'
import type { TrackInput, Turn } from '../../plan/rows/track.ts'
import { FigureDefaults } from './figure-defaults.ts'
import type { FigureQuestion } from './read-figure.ts'

type BuiltFigure =
  | {
      readonly ok: true
      readonly side: Turn
      readonly tracks: TrackInput[]
      readonly measures: readonly FigureMeasure[]
      readonly assumptions: readonly Assumption[]
    }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Fills in what a figure leaves open and lays out its tracks, on the side and at the place that are asked for. */
export function buildFigure(question: FigureQuestion): BuiltFigure {
  const defaults = new FigureDefaults(question)
  const { side } = defaults
  const result = laidOut(question, defaults)
  if (defaults.faults.length > 0) return { ok: false, faults: defaults.faults }
  if (!result.ok) return { ok: false, faults: result.faults.map((fault) => atField(fault, question, side)) }
  const tracks = side === 'left' ? result.tracks : mirroredTracks(result.tracks, question.asked.wye)
  return {
    ok: true,
    side,
    tracks: movedTracks(tracks, defaults.start()),
    measures: result.measures,
    assumptions: defaults.assumptions,
  }
}

/** On the left of its track; of no meaning where the defaults have a fault. */
function laidOut({ asked }: FigureQuestion, from: FigureDefaults): FigureResult {
  const names = new Names(asked.prefix ?? '')
  switch (asked.figure) {
    case 'crossover': {
      const spacingMm = from.spacingMm()
      if (!asked.curve) return crossover({ near: from.near(), spacingMm, names })
      const { near, far } = from.kinds()
      const isInside = asked.curve.turn === from.side
      const curvature = (isInside ? 1 : -1) / asked.curve.radius
      return curvedCrossover({
        curvature,
        spacingMm,
        names,
        ...(isInside ? { first: near, second: far } : { first: far, second: near }),
      })
    }
    case 'ladder': {
      const { clears, clear = 0, count = 2 } = asked
      const clearsMm = clears ?? Array.from({ length: count }, () => clear)
      if (asked.doubleEnded)
        return doubleLadder({ ...from.kinds(), ...from.spacings(), clearsMm, radiusMm: from.radiusMm(), names })
      const kinds = clearsMm.length > 2 ? from.kinds() : { near: from.near(), far: from.near() }
      return ladder({ ...kinds, ...from.spacings(), clearsMm, radiusMm: from.radiusMm(), names })
    }
    case 'passing-loop':
      return passingLoop({
        ...from.kinds(),
        ...from.spacings(),
        clearMm: asked.clear!,
        radiusMm: from.radiusMm(),
        names,
      })
    case 'reverse-loop': {
      const kind = from.wyeKind() ?? from.near()
      const isWye = from.wyeKind() !== null
      return reverseLoop({ kind, isWye, radiusMm: from.radiusMm(), betweenMm: from.betweenMm(), names })
    }
    case 'wye': {
      const kinds = from.kinds()
      const tail = from.wyeKind() ?? kinds.near
      return wye({ ...kinds, tail, radiusMm: from.radiusMm(), clearMm: from.tailMm(), names })
    }
    case 'parallel':
      return parallel({
        elements: from.side === 'left' ? asked.elements! : mirroredElements(asked.elements!),
        spacingMm: from.spacingMm(),
        names,
      })
    case 'junction':
      return junction({
        near: from.near(),
        gaugeMm: from.gaugeMm,
        radiusMm: from.radiusMm(),
        angleRad: toRadians(from.angleDeg()),
        spacingMm: asked.spacing ?? null,
        names,
      })
  }
}

function mirroredElements(elements: TrackInput['elements']): TrackInput['elements'] {
  return mirroredTracks([{ name: '', elements }])[0]!.elements
}

/** A fault of a figure on the left, at the field of the request. */
function atField({ field, ...fault }: FigureFault, { asked }: FigureQuestion, side: Turn): Fault {
  const other = side === 'left' ? 'right' : 'left'
  const curved = asked.curve && asked.curve.turn !== side
  const fields: Readonly<Record<string, string>> = {
    near: side,
    far: other,
    first: curved ? other : side,
    second: curved ? side : other,
    clear: asked.clears ? 'clears' : 'clear',
  }
  return { path: [fields[field] ?? field], ...fault }
}
