import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { poseOn } from '../../track/place.ts'
import { besideOfPlan } from '../track/beside-of-plan.ts'
import { type Aside, byOneStraight, byTwoStraights, movedAsWhole } from './aside.ts'
import { otherCircle } from './aside-circle.ts'
import { otherRadius, swungAside } from './aside-curves.ts'
import type { Line } from './line.ts'

/** More than is missing, for rounding; and times that, where a place beside it is then the one that touches. */
const MARGIN_MM = 0.5
const TIMES = [1, 1.2, 2]

/** Along a track beside another, so much is moved before and behind the place where they are closest. */
type Place = Pick<Aside, 'track' | 'fromMm' | 'toMm' | 'atMm' | 'byMm'>

/** A track moved clear of an obstacle. */
export function obstacleProposals({ element, measured }: Finding, line: Line, track: number): Patch[] {
  return besideOfPlan(line.tracks, line.plan)
    .obstacles.touched.filter((each) => each.track === track && each.element === element && each.depthMm === measured)
    .flatMap(({ fromMm, toMm, atMm, side, depthMm }) =>
      movedAside([{ track, fromMm, toMm, atMm, byMm: -side * (depthMm + MARGIN_MM) }], line),
    )
}

/** Of two tracks too close beside each other, one moved away; one that is there already stays. */
export function spacingProposals({ element, measured, limit }: Finding, line: Line, track: number): Patch[] {
  return besideOfPlan(line.tracks, line.plan)
    .tracks.found.filter(
      (each) =>
        each.track === track && each.element === element && each.apartMm === measured && each.neededMm === limit,
    )
    .flatMap((close) => {
      const byMm = close.neededMm - close.apartMm + MARGIN_MM
      const { fromMm, toMm, atMm, other, otherMm, side, otherSide } = close
      // On the other track it is as long; which of its stations lie beside these is not asked.
      const beyond = otherSide === side ? [atMm - fromMm, toMm - atMm] : [toMm - atMm, atMm - fromMm]
      return movedAside(
        [
          { track, fromMm, toMm, atMm, byMm: -side * byMm },
          {
            track: other,
            fromMm: otherMm - beyond[1]!,
            toMm: otherMm + beyond[0]!,
            atMm: otherMm,
            byMm: -otherSide * byMm,
          },
        ],
        line,
      )
    })
}

const MOVES = [movedAsWhole, byTwoStraights, otherRadius, otherCircle, byOneStraight, swungAside]

function movedAside(places: readonly Place[], line: Line): Patch[] {
  const asides = places
    .filter(({ track }) => line.tracks[track]!.state === 'new')
    .flatMap((place): Aside[] => {
      const { placed } = line.tracks[place.track]!
      const element = placed.find(({ toMm }) => toMm >= place.atMm) ?? placed.at(-1)!
      return [{ ...place, element: element.index, pose: poseOn(element, place.atMm) }]
    })
  return TIMES.flatMap((times) =>
    MOVES.flatMap((move) => asides.flatMap((aside) => move({ ...aside, byMm: times * aside.byMm }, line))),
  )
}
