import { formatMm } from '../measure/length.ts'
import { firstIndexWhere } from '../measure/search.ts'
import type { Finding } from './finding.ts'

/** What the checks of joint places need of a joint. */
export interface PlacedJoint {
  readonly rail: 'left' | 'right'
  readonly stationMm: number
  readonly kind: string
}

/** What a plan requires of the places of joints. */
export interface JointRequirements {
  readonly keepOut: readonly { readonly from: number; readonly to: number; readonly reason: string | null }[]
  readonly tieSpacingMm: number | null
  /** A joiner reaches half of this to either side of its joint. */
  readonly joinerMm: number
  /** How far apart the joints of the two rails are kept; null: not required. */
  readonly staggerMm: number | null
  readonly square: boolean
}

/** Stations are calculated along either rail. */
const SLACK_MM = 1e-3

/**
 * Joints that are not where the plan requires them: at breaks, or where no stick reaches from one place to the next.
 */
export function jointPlaceFindings(
  track: string,
  joints: readonly PlacedJoint[],
  requirements: JointRequirements,
): Finding[] {
  return [
    ...inKeepOut(track, joints, requirements),
    ...tooNear(track, joints, requirements),
    ...offTies(track, joints, requirements),
  ]
}

function inKeepOut(track: string, joints: readonly PlacedJoint[], { keepOut, joinerMm }: JointRequirements): Finding[] {
  const reachMm = ({ kind }: PlacedJoint) => (kind === 'joiner' ? joinerMm / 2 : 0)
  return keepOut.flatMap(({ from: fromMm, to: toMm, reason }): Finding[] => {
    const inside = joints.filter((joint) => {
      const { stationMm } = joint
      return stationMm + reachMm(joint) > fromMm + SLACK_MM && stationMm - reachMm(joint) < toMm - SLACK_MM
    })
    if (inside.length === 0) return []
    const near = inside.some(({ stationMm }) => stationMm <= fromMm + SLACK_MM || stationMm >= toMm - SLACK_MM)
    const place = `${formatMm(fromMm)} and ${formatMm(toMm)}`
    return [
      {
        rule: 'joint-in-keep-out',
        severity: 'warn',
        track,
        element: null,
        message: `${count(inside.length)} between ${place}${reason ? ` (${reason})` : ''}${near ? ', or so near that the joiner reaches in' : ''}, where there should be none; the first at ${formatMm(inside[0]!.stationMm)}.`,
        measured: inside.length,
        limit: 0,
        unit: null,
        cure: 'Allow longer sticks, shorten the stretch, or move any break inside it.',
      },
    ]
  })
}

function tooNear(track: string, joints: readonly PlacedJoint[], { staggerMm, square }: JointRequirements): Finding[] {
  const of = (rail: 'left' | 'right') =>
    joints
      .filter((joint) => joint.rail === rail && joint.kind === 'joiner')
      .map(({ stationMm }) => stationMm)
      .sort((a, b) => a - b)
  const [left, right] = [of('left'), of('right')]
  if (square) {
    const alone = [
      ...left.filter((station) => nearest(station, right) > SLACK_MM),
      ...right.filter((station) => nearest(station, left) > SLACK_MM),
    ]
    if (alone.length === 0) return []
    return [
      {
        rule: 'joints-not-square',
        severity: 'warn',
        track,
        element: null,
        message: `${count(alone.length)} not opposite a joint of the other rail; the first at ${formatMm(Math.min(...alone))}.`,
        measured: alone.length,
        limit: 0,
        unit: null,
        cure: 'Allow longer sticks, or relax the rules for joints.',
      },
    ]
  }
  if (staggerMm === null) return []
  const near = left.filter((station) => nearest(station, right) < staggerMm - SLACK_MM)
  if (near.length === 0) return []
  return [
    {
      rule: 'joints-too-near',
      severity: 'warn',
      track,
      element: null,
      message: `${near.length === 1 ? 'One joint of the left rail is' : `${near.length} joints of the left rail are`} within ${formatMm(staggerMm)} of a joint of the right rail; the first at ${formatMm(near[0]!)}.`,
      measured: Math.min(...near.map((station) => nearest(station, right))),
      limit: staggerMm,
      unit: 'mm',
      cure: 'Reduce the stagger, or allow sticks of another length.',
    },
  ]
}

/** How far the nearest of some stations in order is; infinite where there is none. */
function nearest(station: number, others: readonly number[]): number {
  const next = firstIndexWhere(others.length, (n) => others[n]! >= station)
  const [before = Number.NEGATIVE_INFINITY, after = Number.POSITIVE_INFINITY] = [others[next - 1], others[next]]
  return Math.min(station - before, after - station)
}

function offTies(track: string, joints: readonly PlacedJoint[], { tieSpacingMm }: JointRequirements): Finding[] {
  if (tieSpacingMm === null) return []
  const off = joints.filter(({ kind, stationMm }) => {
    const places = stationMm / tieSpacingMm - 0.5
    return kind === 'joiner' && Math.abs(places - Math.round(places)) * tieSpacingMm > SLACK_MM
  })
  if (off.length === 0) return []
  return [
    {
      rule: 'joint-on-tie',
      severity: 'warn',
      track,
      element: null,
      message: `${count(off.length)} not midway between two ties; the first at ${formatMm(off[0]!.stationMm)}.`,
      measured: off.length,
      limit: 0,
      unit: null,
      cure: 'Move the nearest tie there, or allow sticks of another length.',
    },
  ]
}

function count(joints: number): string {
  return joints === 1 ? 'One joint is' : `${joints} joints are`
}
