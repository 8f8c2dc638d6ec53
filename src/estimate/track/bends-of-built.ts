import { type Bend, type BendingOfPlan, sheetOf } from '../../bending/bends.ts'
import type { RailStretch } from '../../track/turnout/rails.ts'
import type { BuiltRail } from './built-rails.ts'
import type { LaidTrack } from './laid-track.ts'

type Stretch = Pick<RailStretch, 'lengthMm' | 'curvature' | 'trackCurvature'>

/** How a bent stretch of a rail of a turnout is formed, as if no joint lay in it. */
export function formingOf({ lengthMm, curvature, trackCurvature }: Stretch, { former, gaugeMm }: BendingOfPlan) {
  return former.form({
    rail: whichRail({ curvature, trackCurvature }),
    radiusMm: 1 / Math.abs(curvature),
    trackRadiusMm: 1 / Math.abs(trackCurvature),
    gaugeMm,
    turnedRad: Math.abs(curvature) * lengthMm,
    jointsInBend: 0,
  })
}

function whichRail({ curvature, trackCurvature }: Omit<Stretch, 'lengthMm'>): 'outer' | 'inner' {
  return Math.abs(curvature) < Math.abs(trackCurvature) ? 'outer' : 'inner'
}

/** The bends of the rails of turnouts that are built by hand, each rail by itself. */
export function bendsOfBuilt(
  rails: readonly BuiltRail[],
  laid: readonly Pick<LaidTrack, 'name'>[],
  plan: BendingOfPlan,
): Bend[] {
  return rails.flatMap((each) =>
    each.rail.stretches
      .filter(({ curvature }) => curvature !== 0)
      .map((stretch) => bendOf(each, stretch, laid[each.track]!.name, plan)),
  )
}

function bendOf({ turnout, index, rail }: BuiltRail, stretch: RailStretch, track: string, plan: BendingOfPlan): Bend {
  const { curvature, lengthMm } = stretch
  const radiusMm = 1 / Math.abs(curvature)
  const measuredRadiusMm = radiusMm - plan.headWidthMm / 2
  const { leftOutMm: _, ...sheet } = sheetOf(measuredRadiusMm, lengthMm, plan)
  return {
    track,
    element: turnout.element,
    turnout: { name: turnout.name, rail: index },
    rail: whichRail(stretch),
    side: rail.side,
    turn: curvature > 0 ? 'left' : 'right',
    radiusMm,
    measuredRadiusMm,
    lengthMm,
    ...sheet,
    forming: formingOf(stretch, plan),
    readyMade: false,
  }
}
