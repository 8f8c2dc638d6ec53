import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import { formatCelsius } from '../measure/temperature.ts'
import type { Finding } from './finding.ts'

/** What the checks of gaps need of a joint. */
export interface CheckedJoint {
  readonly track: string
  readonly rail: 'left' | 'right'
  readonly stationMm: number
  readonly kind: string
  readonly gapColdestMm: number | null
}

/** What is known about the expansion of a plan's rails. */
export interface CheckedExpansion {
  readonly joints: 'sliding' | 'clamped'
  readonly held: boolean
  readonly layingC: number
  readonly coldestC: number
  readonly hottestC: number
  readonly expansionPerK: number | null
  readonly gapLimitMm: number
  readonly expansionJointLimitMm: number
  readonly longestLengthMm: number | null
  readonly heldStressHottestMpa: number | null
  readonly heldForceHottestN: number | null
  readonly bucklingLengthMm: number | null
  readonly lengths: readonly {
    readonly track: string
    readonly leftMm: number
    readonly rightMm: number
    readonly expansionJointsAtMm: readonly number[] | null
  }[]
}

const SLACK_K = 1e-9

const OF_PLAN = { track: null, element: null }
const UNMEASURED = { measured: null, limit: null, unit: null }

/** Findings about rail and temperature. */
export function expansionFindings(
  expansion: CheckedExpansion | null,
  joints: readonly CheckedJoint[],
  insulatorThicknessMm: number,
  straightTracks: readonly string[],
): Finding[] {
  if (!expansion) return []
  if (expansion.expansionPerK === null)
    return [
      {
        ...OF_PLAN,
        ...UNMEASURED,
        rule: 'expansion-unknown',
        severity: 'note',
        message: 'The expansion of this metal is not known: gaps, expansion joints and held stress are not calculated.',
        cure: 'Add expansionPerK to the metal; for brass it is about 0.00002.',
      },
    ]
  return [
    ...laidOutOfRange(expansion),
    ...gapsTooWide(expansion, joints, insulatorThicknessMm),
    ...jointsNeeded(expansion),
    ...(expansion.held ? canBuckle(expansion, straightTracks) : []),
  ]
}

function laidOutOfRange({ layingC, coldestC, hottestC }: CheckedExpansion): Finding[] {
  const measured = { ...OF_PLAN, severity: 'warn', measured: layingC, unit: '°C' } as const
  if (layingC > hottestC + SLACK_K)
    return [
      {
        ...measured,
        rule: 'laid-too-hot',
        message: `The rail is laid at ${formatCelsius(layingC)}, above the hottest temperature given for it (${formatCelsius(hottestC)}). It is laid without gaps; they open as it cools.`,
        limit: hottestC,
        cure: 'Lay it when it is cooler, or correct the hottest temperature.',
      },
    ]
  if (layingC < coldestC - SLACK_K)
    return [
      {
        ...measured,
        rule: 'laid-too-cold',
        message: `The rail is laid at ${formatCelsius(layingC)}, below the coldest temperature given for it (${formatCelsius(coldestC)}). Its gaps will never be that wide again.`,
        limit: coldestC,
        cure: 'Lay it when it is warmer, or correct the coldest temperature.',
      },
    ]
  return []
}

/** One finding for the plain joiners of a track and one for its expansion joints, each with the widest gap. */
function gapsTooWide(
  { gapLimitMm, expansionJointLimitMm, longestLengthMm, joints: kind, coldestC }: CheckedExpansion,
  joints: readonly CheckedJoint[],
  insulatorThicknessMm: number,
): Finding[] {
  const opening = (joint: CheckedJoint) =>
    (joint.gapColdestMm ?? 0) - (joint.kind === 'insulated' ? insulatorThicknessMm : 0)
  const worst = new Map<string, { joint: CheckedJoint; openMm: number; limitMm: number; count: number }>()
  for (const joint of joints) {
    const made = joint.kind === 'expansion'
    const limitMm = made ? expansionJointLimitMm : gapLimitMm
    const openMm = opening(joint)
    if (!exceeds(openMm, limitMm)) continue
    const key = `${made} ${joint.track}`
    const known = worst.get(key)
    const count = (known?.count ?? 0) + 1
    worst.set(key, known && known.openMm >= openMm ? { ...known, count } : { joint, openMm, limitMm, count })
  }
  return [...worst.values()].map(({ joint, openMm, limitMm, count }) => {
    const made = joint.kind === 'expansion'
    const what = made ? 'an expansion joint' : 'a joiner'
    return {
      rule: 'gap-too-wide',
      severity: 'warn',
      track: joint.track,
      element: null,
      message: `At ${formatCelsius(coldestC)} the joint of the ${joint.rail} rail at ${formatMm(joint.stationMm, 0)} opens to ${formatMm(openMm, 2)}${count > 1 ? `, the widest of ${count} such joints` : ''}; ${what} can take ${formatMm(limitMm, 2)}.`,
      measured: openMm,
      limit: limitMm,
      unit: 'mm',
      cure: cureOf(kind, made, longestLengthMm),
    }
  })
}

function cureOf(kind: 'sliding' | 'clamped', made: boolean, longestLengthMm: number | null): string {
  const longest = longestLengthMm === null ? '' : ` of at most ${formatMm(Math.floor(longestLengthMm), 0)}`
  if (kind === 'sliding')
    return made
      ? 'Put it where shorter pieces meet, or use one that opens further.'
      : `Lay ${longestLengthMm === null ? 'shorter pieces' : `pieces${longest}`}, use joiners that open further, or clamp the rail and add expansion joints.`
  return made
    ? `Put the expansion joints closer together, with lengths${longest} between them.`
    : 'Put an expansion joint in its place, or one on each side of it, so that less rail moves towards it.'
}

/** One finding per track. */
function jointsNeeded({ lengths, longestLengthMm }: CheckedExpansion): Finding[] {
  const tracks = [...new Set(lengths.map(({ track }) => track))]
  return tracks.flatMap((track): Finding[] => {
    const tooLong = lengths.filter((length) => length.track === track && length.expansionJointsAtMm?.length !== 0)
    if (tooLong.length === 0) return []
    const stations = tooLong.flatMap(({ expansionJointsAtMm }) => expansionJointsAtMm ?? []).sort((a, b) => a - b)
    const tooMany = tooLong.some(({ expansionJointsAtMm }) => expansionJointsAtMm === null)
    const longestMm = Math.max(...tooLong.map(({ leftMm, rightMm }) => Math.max(leftMm, rightMm)))
    return [
      {
        rule: 'expansion-joint-missing',
        severity: 'warn',
        track,
        element: null,
        message: `${formatMm(longestMm, 0)} of clamped rail moves as one; an expansion joint can take the expansion of ${formatMm(longestLengthMm!, 0)}.`,
        measured: longestMm,
        limit: longestLengthMm,
        unit: 'mm',
        cure: tooMany
          ? 'The allowed length is too short to be right: check the temperatures, the metal and the expansion joint limit.'
          : `Put expansion joints in both rails at ${listed(stations)} from the start.`,
      },
    ]
  })
}

/** Stations in words; if there are many, the first few. */
function listed(stations: readonly number[]): string {
  const shown = stations.slice(0, 12).map((mm) => formatMm(mm, 0))
  const more = stations.length - shown.length
  return more > 0 ? `${shown.join(', ')} and ${more} more places` : shown.join(', ')
}

function canBuckle(
  { heldStressHottestMpa, heldForceHottestN, bucklingLengthMm, hottestC }: CheckedExpansion,
  straightTracks: readonly string[],
): Finding[] {
  if (bucklingLengthMm === null) return []
  return straightTracks.map((track) => ({
    rule: 'held-rail-can-buckle',
    severity: 'warn',
    track,
    element: null,
    message: `At ${formatCelsius(hottestC)} the compression in held rail is ${heldStressHottestMpa!.toFixed(0)} MPa, ${heldForceHottestN!.toFixed(0)} N in each rail. Straight track can then buckle sideways.`,
    measured: heldForceHottestN,
    limit: null,
    unit: 'N',
    cure: `Pin ties to the ground at most ${formatMm(Math.floor(bucklingLengthMm), 0)} apart, or let the rail move with expansion joints, or lay it on a hotter day.`,
  }))
}

/** A break where no rails meet has no effect. */
export function breakAtFreeEnd(track: string, stationMm: number, what: string): Finding {
  return {
    rule: 'break-joins-nothing',
    severity: 'note',
    track,
    element: null,
    message: `The ${what} at ${formatMm(stationMm, 0)} is at an end that joins no other track; nothing is bought for it.`,
    measured: stationMm,
    limit: null,
    unit: 'mm',
    cure: 'State which end joins existing track (joinsExisting), or remove the break.',
  }
}
