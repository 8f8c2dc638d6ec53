import type { Metal } from '../metal.ts'
import type { SectionProperties } from '../section-properties.ts'
import type { BendingModel } from './bending-model.ts'
import { LoadingCurve } from './loading-curve.ts'
import { PressedModel, pressStepMm } from './pressed-model.ts'
import { RolledModel } from './rolled-model.ts'
import type { RollerBender } from './roller-bender.ts'

/** The model for a bender's mode; pressed rail is moved on as suits the wanted radius. */
export function modelFor(
  section: SectionProperties,
  metal: Metal,
  bender: RollerBender,
  wantedPerMm: number,
  curve = new LoadingCurve(section, metal),
): BendingModel {
  if (bender.mode === 'rolled') return new RolledModel(section, metal, bender, curve)
  const pressedEvery = (stepMm: number) => new PressedModel(section, metal, bender, stepMm, curve)
  let model = pressedEvery(pressStepMm(bender, 1 / wantedPerMm))
  while (!model.reaches(wantedPerMm)) model = pressedEvery(model.stepMm / 2)
  return model
}

/** Depth that bends straight rail to a curvature > 0 in one pass: the starting estimate. */
export function onePassDepthMm(
  section: SectionProperties,
  metal: Metal,
  bender: RollerBender,
  wantedPerMm: number,
): number {
  const model = modelFor(section, metal, bender, wantedPerMm)
  return model.depthMm(0, model.peakFor(wantedPerMm))
}
