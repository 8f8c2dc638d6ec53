import { bedSection } from '../../laying/roadbed.ts'
import { exceeds, roundedUp, sameLength } from '../../measure/counting.ts'
import { formatMm } from '../../measure/length.ts'
import type { Assumption } from '../../plan/fields/assumption.ts'
import type { EarthworksSettings } from '../../plan/rows/earthworks.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { EarthStretch, EarthworksAnswer } from './answer.ts'
import {
  balancingShiftMm,
  depthPieces,
  extremesOf,
  type Formation,
  type Part,
  partsOf,
  volumeMm3,
} from './cut-and-fill.ts'
import { groundAlong, trianglesBetween } from './surface.ts'

const LITRES_PER_MM3 = 1e-6

/** Wide enough for the ties and ballast of 45 mm track, common practice. */
const USUAL_WIDTH_MM = 250
/** Run over rise of the sides of a cutting in ordinary soil, common practice. */
const USUAL_CUT_SLOPE = 1

interface FormationOfPlan extends Formation {
  readonly depthMm: number
}

type OfFormation = Pick<Plan, 'earthworks' | 'roadbed' | 'section'>

/** The formation of a plan, with what of it was taken for granted; null where no track gives its ground. */
export function formationOf({ earthworks, roadbed, section }: OfFormation): {
  formation: FormationOfPlan
  assumptions: Assumption[]
} | null {
  if (!earthworks) return null
  const assumptions: Assumption[] = []
  const taken = (name: keyof EarthworksSettings, value: number, shown: string, reason: string) => {
    const given = earthworks[name]
    if (given === null) assumptions.push({ field: `/earthworks/${name}`, value: shown, reason })
    return given ?? value
  }
  const widthMm = roadbed ? bedSection(roadbed).baseWidthMm : USUAL_WIDTH_MM
  const depthMm = roadbed ? section.heightMm + (roadbed.tie?.height ?? 0) + roadbed.depthUnderTie : 0
  const isTrench = roadbed?.kind === 'trench'
  const cutSlope = isTrench ? roadbed.shoulderSlope : USUAL_CUT_SLOPE
  return {
    formation: {
      widthMm: taken(
        'formationWidth',
        widthMm,
        formatMm(widthMm, 4),
        roadbed ? 'the bottom of the ballast' : 'room for ties and ballast, common practice',
      ),
      depthMm: taken('formationDepth', depthMm, formatMm(depthMm, 4), depthReason(roadbed)),
      cutSlope: taken(
        'cutSlope',
        cutSlope,
        String(cutSlope),
        isTrench ? 'the sides of the trench' : 'ordinary soil, common practice',
      ),
      fillSlope: earthworks.fillSlope,
    },
    assumptions,
  }
}

function depthReason(roadbed: Plan['roadbed']): string {
  if (!roadbed) return 'no roadbed given: the elevations of the track are those of the formation'
  return roadbed.tie
    ? 'rail, ties and the ballast under them'
    : 'rail and the ballast under the ties, whose height is not given'
}

/** Cut and fill of a new track that gives its ground; null for any other. */
function earthworksOf(
  track: LaidTrack,
  formation: FormationOfPlan,
  { swellPct, barrowL }: EarthworksSettings,
): EarthworksAnswer | null {
  if (track.state !== 'new' || track.ground.length === 0) return null
  const pieces = depthPieces(track.profile, track.ground, formation.depthMm, track.lengthMm)
  if (pieces.length === 0) return null
  const barrowsFor = (volumeL: number) => roundedUp((volumeL * (1 + swellPct / 100)) / barrowL)
  const parts = pieces.flatMap((piece) => partsOf(piece))
  const stretches = together(parts.filter(isWorthNoting)).map((stretch) => stretchOf(stretch, formation, barrowsFor))
  const total = (kind: EarthStretch['kind']) =>
    stretches.reduce((sum, stretch) => sum + (stretch.kind === kind ? stretch.volumeL : 0), 0)
  const shiftMm = balancingShiftMm(pieces, formation)
  const balanced = pieces
    .flatMap((piece) => partsOf(piece, shiftMm))
    .reduce((sum, part) => sum + (part.kind === 'cut' ? volumeMm3(part, formation, shiftMm) : 0), 0)
  return {
    formation,
    ground: [...track.ground],
    stretches,
    cutL: total('cut'),
    fillL: total('fill'),
    cutBarrows: barrowsFor(total('cut')),
    fillBarrows: barrowsFor(total('fill')),
    balance: { shiftMm, volumeL: balanced * LITRES_PER_MM3 },
  }
}

/** Cut and fill of every track of a plan; one without ground of its own lies on that of the plan. */
export function earthworksOfAll(
  tracks: readonly LaidTrack[],
  plan: OfFormation & Pick<Plan, 'ground'>,
): (EarthworksAnswer | null)[] {
  const ofPlan = formationOf(plan)
  const triangles = trianglesBetween(
    plan.ground.map(({ x: xMm, y: yMm, elevation: elevationMm }) => ({ xMm, yMm, elevationMm })),
  )
  return tracks.map((track) => {
    const isOnPlan = track.state === 'new' && track.ground.length === 0 && triangles.length > 0
    const on = isOnPlan ? { ...track, ground: groundAlong(track.placed, triangles) } : track
    return ofPlan && earthworksOf(on, ofPlan.formation, plan.earthworks!)
  })
}

/** The greatest depth or height of all tracks; null where nothing is dug. */
export function deepestMm(earthworks: readonly (EarthworksAnswer | null)[]): number | null {
  const stretches = earthworks.flatMap((each) => each?.stretches ?? [])
  return stretches.length === 0 ? null : Math.max(...stretches.map(({ greatestMm }) => greatestMm))
}

/** Not only rounding: where the formation lies on the ground, or meets it at a point of either. */
function isWorthNoting(part: Part): boolean {
  return exceeds(part.toMm, part.fromMm) && extremesOf(part).some(({ h }) => exceeds(Math.abs(h), 0))
}

/** Neighbouring parts of one kind. */
function together(parts: readonly Part[]): Part[][] {
  const groups: Part[][] = []
  for (const part of parts) {
    const before = groups.at(-1)?.at(-1)
    const follows = before && sameLength(before.piece.fromMm + before.toMm, part.piece.fromMm + part.fromMm)
    if (follows && before.kind === part.kind) groups.at(-1)!.push(part)
    else groups.push([part])
  }
  return groups
}

function stretchOf(
  parts: readonly Part[],
  formation: Formation,
  barrowsFor: (volumeL: number) => number,
): EarthStretch {
  const [first, last] = [parts[0]!, parts.at(-1)!]
  const volumeL = parts.reduce((sum, part) => sum + volumeMm3(part, formation), 0) * LITRES_PER_MM3
  const greatest = parts
    .flatMap((part) => extremesOf(part).map(({ t, h }) => ({ atMm: part.piece.fromMm + t, depthMm: Math.abs(h) })))
    .reduce((most, each) => (each.depthMm > most.depthMm ? each : most))
  const slope = first.kind === 'cut' ? formation.cutSlope : formation.fillSlope
  return {
    kind: first.kind,
    fromMm: first.piece.fromMm + first.fromMm,
    toMm: last.piece.fromMm + last.toMm,
    volumeL,
    barrows: barrowsFor(volumeL),
    greatestMm: greatest.depthMm,
    greatestAtMm: greatest.atMm,
    widestMm: formation.widthMm + 2 * slope * greatest.depthMm,
  }
}
