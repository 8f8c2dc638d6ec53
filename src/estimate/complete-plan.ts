import { MATERIAL_SPELLINGS } from '../catalogue/materials.ts'
import type { Standards } from '../checking/standards.ts'
import type { BreakKind } from '../laying/breaks.ts'
import type { Pack, Stick, Supplies } from '../laying/supplies.ts'
import { formatMm, MM_PER_FOOT } from '../measure/length.ts'
import type { GradePoint } from '../track/grade.ts'
import { completeBender } from './complete-bender.ts'
import { assumeExpansion, completeClimate, completeJoints } from './complete-joints.ts'
import { completeExtra, completePanels, completeTies } from './complete-parts.ts'
import { completePower } from './complete-power.ts'
import { completeCalibration, completeMetal, completeSection } from './complete-rail.ts'
import { completeRoadbed } from './complete-roadbed.ts'
import type {
  Assumption,
  ExistingEnd,
  PackInput,
  Plan,
  PlanInput,
  StandardsInput,
  StickInput,
  SuppliesInput,
  Track,
  TrackInput,
} from './plan.ts'

/** What stands where a plan says nothing. */
export const DEFAULTS = {
  gaugeMm: 45,
  chordsMm: [300, 500],
  currency: 'USD',
  packSize: 1,
  onHand: 0,
  kerfMm: 1,
  minimumPieceMm: 150,
  tieSpacingMm: 45,
  fastenersPerTie: 4,
  stickMm: 5 * MM_PER_FOOT,
  maximumGradePct: 2,
  closureGapMm: 2,
  closureHeadingDeg: 0.5,
  carsPerMinimumRadius: 3,
  resolutionMm: 0.5,
  /** NEM 122. */
  shoulderSlope: 1.25,
  /** MIL-HDBK-1005/6 asks for 12 to 15. */
  shrinkagePct: 15,
  ballastKgM3: 1600,
  supplyVoltageV: 18,
  maximumDropPct: 5,
  effort: 'quick',
  readyMade: 'cheapest',
} as const

export type Assume = (field: string, value: string, reason: string) => void

/**
 * Fills in whatever a plan leaves open and says so.
 *
 * @param input a plan without faults (see `planFaults`); an unknown section, material or temper throws
 * @returns the plan with nothing left open, and one assumption for each default that was used
 */
export function completePlan(input: PlanInput): { plan: Plan; assumptions: Assumption[] } {
  const assumptions: Assumption[] = []
  const assume: Assume = (field, value, reason) => assumptions.push({ field, value, reason })

  const gaugeMm = input.gauge ?? assumed(assume, '/gauge', DEFAULTS.gaugeMm, mm, 'the usual garden gauge (NEM 010)')
  const section = completeSection(input.rail.section, assume)
  const metal = completeMetal(input.rail, assume)
  // What one bends with decides nothing in a plan without a curve.
  const anythingBent = input.tracks.some(({ elements }) => elements.some(({ kind }) => kind !== 'tangent'))
  const bender = completeBender(input.bender, anythingBent ? assume : () => {})
  const tracks = input.tracks.map((track, index) => completeTrack(track, index, assume))
  const supplies = completeSupplies(input.supplies ?? {}, section, tracks, assume)
  const standards = completeStandards(input.standards ?? {}, assume)
  if (!input.chords) assume('/chords', DEFAULTS.chordsMm.map(mm).join(' and '), 'chords a bench gauge usually has')
  const chordsMm = input.chords ?? DEFAULTS.chordsMm

  const calibration = completeCalibration(input.rail, assume)
  const anythingRead = anythingBent || calibration.length > 0
  if (input.resolution === undefined && anythingRead)
    assume('/resolution', mm(DEFAULTS.resolutionMm), 'a steel rule read with care')
  const resolutionMm = input.resolution ?? DEFAULTS.resolutionMm
  const climate = completeClimate(input.climate, assume)
  const joints = completeJoints(input, tracks, assume)
  assumeExpansion({ metal, climate }, assume)
  const effort = input.effort ?? assumed(assume, '/effort', DEFAULTS.effort, String, 'a sound cut plan at once')
  const title = input.title ?? null
  const rail = { section, metal, calibration, bender, climate, joints }
  const besides = {
    roadbed: completeRoadbed(input.roadbed, assume),
    power: completePower(input.power, input.rail, metal, assume),
    extras: (input.extras ?? []).map((extra, index) => completeExtra(extra, index, assume)),
  }
  return {
    plan: {
      title,
      gauge: gaugeMm,
      ...rail,
      tracks,
      supplies,
      standards,
      effort,
      chords: chordsMm,
      resolution: resolutionMm,
      ...besides,
    },
    assumptions,
  }
}

function completeTrack(track: TrackInput, index: number, assume: Assume): Track {
  const { start } = track
  const at = `/tracks/${index}/start`
  if (!start) assume(at, 'x 0, y 0, heading 0°', 'a track on a sheet of its own starts at the origin')
  return {
    name: track.name,
    label: track.label ?? null,
    start: { x: start?.x ?? 0, y: start?.y ?? 0, heading: start?.heading ?? 0 },
    closed: track.closed ?? false,
    state: track.state ?? 'new',
    joinsExisting: { start: Boolean(track.joinsExisting?.start), end: Boolean(track.joinsExisting?.end) },
    beyond: { start: endBeyond(track.joinsExisting?.start), end: endBeyond(track.joinsExisting?.end) },
    gradeLine: gradeLineFrom(start?.elevation, track.gradeLine ?? [], `${at}/elevation`, assume),
    breaks: track.breaks ?? [],
    keepOut: track.keepOut ?? [],
    elements: track.elements,
  }
}

function endBeyond(end: boolean | ExistingEnd | undefined): ExistingEnd | null {
  if (typeof end !== 'object') return null
  return { ...end, material: MATERIAL_SPELLINGS[end.material] ?? end.material }
}

/**
 * The grade line with a point at station 0: the start's own elevation, from which it then climbs to the first point.
 * Where no elevation is given the track is level up to the first point.
 */
function gradeLineFrom(
  startElevationMm: number | undefined,
  points: readonly GradePoint[],
  at: string,
  assume: Assume,
): readonly GradePoint[] {
  const first = points[0]
  if (first?.at === 0) return points
  if (startElevationMm !== undefined) return [{ at: 0, elevation: startElevationMm }, ...points]
  if (!first) return [{ at: 0, elevation: assumed(assume, at, 0, mm, 'no elevation and no grade line given') }]
  const level = assumed(assume, at, first.elevation, mm, 'level up to the first point of the grade line')
  return [{ at: 0, elevation: level }, ...points]
}

/** At how many ends new track meets another section. */
export function transitionsOf({ state, beyond }: Pick<Track, 'state' | 'beyond'>, section: { id: string }): number {
  if (state !== 'new') return 0
  return [beyond.start, beyond.end].filter((end) => end && end.section !== section.id).length
}

function completeSupplies(
  input: SuppliesInput,
  section: { readonly id: string },
  tracks: readonly Track[],
  assume: Assume,
): Supplies {
  const at = (name: string) => `/supplies/${name}`
  /** Of what only breaks of a kind need, nothing is assumed without one. */
  const packFor = (kind: BreakKind, pack: PackInput | undefined, name: string) =>
    completePack(pack, name, tracks.some(({ breaks }) => breaks.some((each) => each.kind === kind)) ? assume : () => {})
  const sticks: Stick[] = input.sticks
    ? input.sticks.map((stick, index) => completeStick(stick, index, assume))
    : [
        assumed(
          assume,
          at('sticks'),
          {
            length: DEFAULTS.stickMm,
            price: null,
            packSize: DEFAULTS.packSize,
            onHand: DEFAULTS.onHand,
            buyable: true,
          },
          (stick) => `one length of 5 ft (${mm(stick.length)}), sold singly, none on hand, unpriced`,
          'no sticks given',
        ),
      ]
  return {
    currency: input.currency ?? assumed(assume, at('currency'), DEFAULTS.currency, String, 'not given'),
    taxRatePct: input.taxRatePct ?? null,
    sticks,
    ...completePanels(input, assume),
    joiners: completePack(input.joiners, '/supplies/joiners', assume),
    ...(tracks.some((track) => transitionsOf(track, section) > 0) && {
      transitionJoiners: completePack(input.transitionJoiners, '/supplies/transitionJoiners', assume),
    }),
    ties: completeTies(input.ties ?? {}, assume),
    fasteners: completePack(input.fasteners, '/supplies/fasteners', assume),
    insulatedJoiners: packFor('insulated', input.insulatedJoiners, '/supplies/insulatedJoiners'),
    expansionJoints: packFor('expansion-joint', input.expansionJoints, '/supplies/expansionJoints'),
    kerf: input.kerf ?? assumed(assume, at('kerf'), DEFAULTS.kerfMm, mm, 'a thin saw or cutting disc'),
    minimumPiece:
      input.minimumPiece ??
      assumed(assume, at('minimumPiece'), DEFAULTS.minimumPieceMm, mm, 'shorter pieces hold no line'),
  }
}

function completeStick(stick: StickInput, index: number, assume: Assume): Stick {
  const at = `/supplies/sticks/${index}`
  return {
    length: stick.length,
    price: stick.price ?? null,
    ...shelved(stick, at, assume),
  }
}

/** How something is sold and how much of it there is. */
export function shelved(
  given: { packSize?: number | undefined; onHand?: number | undefined; buyable?: boolean | undefined },
  at: string,
  assume: Assume,
) {
  return {
    ...counts(given, at, assume),
    buyable: given.buyable ?? assumed(assume, `${at}/buyable`, true, String, 'not marked otherwise'),
  }
}

/** A pack at its place in the plan, a JSON Pointer. Spares are not bought unless asked for. */
export function completePack(pack: PackInput | undefined, at: string, assume: Assume): Pack {
  return {
    pricePerPack: pack?.pricePerPack ?? null,
    ...counts(pack ?? {}, at, assume),
    sparePct: pack?.sparePct ?? 0,
    massEachG: pack?.massEachG ?? null,
  }
}

function counts(given: { packSize?: number | undefined; onHand?: number | undefined }, at: string, assume: Assume) {
  return {
    packSize: given.packSize ?? assumed(assume, `${at}/packSize`, DEFAULTS.packSize, String, 'sold singly'),
    onHand: given.onHand ?? assumed(assume, `${at}/onHand`, DEFAULTS.onHand, String, 'nothing in the shed'),
  }
}

function completeStandards(input: StandardsInput, assume: Assume): Standards {
  const at = (name: string) => `/standards/${name}`
  const car = input.longestCar
  const fromCar = (name: 'minimumRadius' | 'minimumTangentBetweenReverseCurves', cars: number, rule: string) => {
    if (car === undefined) {
      assume(at(name), 'unchecked', `neither ${name} nor longestCar is given`)
      return null
    }
    return assumed(assume, at(name), cars * car, mm, rule)
  }
  return {
    minimumRadius:
      input.minimumRadius ??
      fromCar('minimumRadius', DEFAULTS.carsPerMinimumRadius, 'three times the longest car, for reliable running'),
    maximumGradePct:
      input.maximumGradePct ??
      assumed(
        assume,
        at('maximumGradePct'),
        DEFAULTS.maximumGradePct,
        (pct) => `${pct} %`,
        'a main line, common practice',
      ),
    longestCar: car ?? null,
    minimumTangentBetweenReverseCurves:
      input.minimumTangentBetweenReverseCurves ??
      fromCar('minimumTangentBetweenReverseCurves', 1, 'as long as the longest car (NEM 113)'),
    closureGap:
      input.closureGap ?? assumed(assume, at('closureGap'), DEFAULTS.closureGapMm, mm, 'taken up in the joints'),
    closureHeading:
      input.closureHeading ??
      assumed(assume, at('closureHeading'), DEFAULTS.closureHeadingDeg, (deg) => `${deg}°`, 'taken up in the joints'),
  }
}

export function assumed<T>(assume: Assume, field: string, value: T, show: (value: T) => string, reason: string): T {
  assume(field, show(value), reason)
  return value
}

export function mm(value: number): string {
  return formatMm(value, 4)
}
