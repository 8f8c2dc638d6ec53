import { SECTIONS } from '../../catalogue/sections.ts'
import { exceeds } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { constantCurvature } from '../elements.ts'
import type { PlanDraft, RailDraft, SuppliesDraft, TrackDraft } from '../reading/draft.ts'
import type { BenderInput } from '../rows/bender.ts'
import type { ElementInput } from '../rows/track.ts'
import { USUAL } from '../usual.ts'
import { breakFaults, jointFaults, stretchFaults } from './breaks.ts'
import { carFaults } from './cars.ts'
import { continuedGradeFaults, gradeLineFaults } from './grades.ts'
import { groundFaults, groundPlaceFaults } from './ground.ts'
import { obstacleFaults } from './obstacles.ts'
import { panelFaults } from './panels.ts'
import { placeFaults } from './places.ts'
import { trainPowerFaults } from './train-power.ts'
import { turnoutFaults } from './turnouts.ts'
import { levelFaults } from './vertical-curves.ts'

type Place = readonly (string | number)[]

/**
 * Contradictions between the parts of a plan, each with its place; those that need more than the plan are elsewhere.
 */
export function partFaults(draft: PlanDraft): Fault[] {
  return [
    ...nameFaults(draft.tracks),
    ...placeFaults(draft),
    ...turnoutFaults(draft),
    ...carFaults(draft),
    ...trainPowerFaults(draft),
    ...groundPlaceFaults(draft),
    ...obstacleFaults(draft),
    ...draft.tracks.flatMap((track, index) => (track ? trackFaults(track, ['tracks', index], draft) : [])),
    ...continuedGradeFaults(draft.tracks),
    ...jointFaults(draft.climate, draft.joints),
    ...suppliesFaults(draft.supplies, trimOf(draft.bender)),
    ...panelFaults(draft.supplies?.panels ?? [], (radiusMm, at) => radiusFaults(radiusMm, at, draft)),
  ]
}

function nameFaults(tracks: readonly (TrackDraft | null)[]): Fault[] {
  const seen = new Map<string, number>()
  return tracks.flatMap((track, index): Fault[] => {
    if (track?.name === undefined) return []
    const first = seen.get(track.name)
    if (first === undefined) {
      seen.set(track.name, index)
      return []
    }
    return [
      {
        path: ['tracks', index, 'name'],
        code: 'duplicate-name',
        detail: `track ${first + 1} is also called "${track.name}"`,
        hint: 'give each track of the plan a name of its own',
      },
    ]
  })
}

function trackFaults(track: TrackDraft, at: Place, draft: PlanDraft): Fault[] {
  return [
    ...joinFaults(track, at),
    ...gradeLineFaults(track, at),
    ...breakFaults(track, at),
    ...stretchFaults(track, 'keepOut', at),
    ...stretchFaults(track, 'limits', at),
    ...levelFaults(track, at),
    ...groundFaults(track, at),
    ...track.elements.flatMap((element, index) =>
      element?.kind === 'easement' ? easementFaults(track, index, [...at, 'elements', index]) : [],
    ),
    ...track.elements.flatMap((element, index) =>
      element?.kind === 'arc' ? radiusFaults(element.radius, [...at, 'elements', index, 'radius'], draft) : [],
    ),
  ]
}

function joinFaults(track: TrackDraft, at: Place): Fault[] {
  if (!track.closed || !(track.joinsExisting?.start || track.joinsExisting?.end)) return []
  return [
    {
      path: [...at, 'joinsExisting'],
      code: 'contradictory',
      detail: 'a closed track joins its own start; it has no free end to join existing track',
      hint: 'leave out joinsExisting, or closed',
    },
  ]
}

function easementFaults(track: TrackDraft, index: number, at: Place): Fault[] {
  const before = neighbour(track, index, -1)
  const after = neighbour(track, index, 1)
  if (before === 'unknown' || after === 'unknown') return []
  if (after?.kind === 'easement')
    return [
      {
        path: at,
        code: 'adjacent-easements',
        detail: 'two easements follow each other; the curvature between them is not defined',
        hint: 'put an arc or a tangent between them, or make them one easement',
      },
    ]
  if (before?.kind === 'easement') return []
  // How a turnout curves where it ends takes its kind to tell.
  if ([before, after].some((each) => each?.kind === 'turnout')) return []
  if (constantCurvature(before) !== constantCurvature(after)) return []
  return [
    {
      path: at,
      code: 'easement-without-change',
      detail: 'this easement is between equal curvatures; there is nothing to ease',
      hint: 'use an easement between a tangent and an arc, or between arcs of different radius or turn',
    },
  ]
}

/** The element before or after; undefined where the track ends, 'unknown' where it could not be read. */
function neighbour(track: TrackDraft, index: number, step: 1 | -1): ElementInput | undefined | 'unknown' {
  const count = track.elements.length
  const wrapped = track.closed ? (index + step + count) % count : index + step
  const element = track.elements[wrapped]
  return element === null ? 'unknown' : element
}

/** The inner face of the inner rail must still have a radius: R > (gauge + 2·headWidth)/2. */
function radiusFaults(radiusMm: number, at: Place, draft: PlanDraft): Fault[] {
  const headWidthMm = headWidthOf(draft.rail?.section)
  if (headWidthMm === undefined || draft.gauge === null) return []
  const leastMm = ((draft.gauge ?? USUAL.gauge) + 2 * headWidthMm) / 2
  if (exceeds(radiusMm, leastMm)) return []
  return [
    {
      path: at,
      code: 'out-of-range',
      detail: `a centre-line radius of ${formatMm(radiusMm, 3)} is too small for the inner rail: it must be over ${formatMm(leastMm, 3)}`,
      hint: 'check the unit: a number is millimetres, "8 ft" is feet',
    },
  ]
}

/** Undefined for a section that is not in the catalogue, or has no rectangles. */
function headWidthOf(section: RailDraft['section']): number | undefined {
  if (typeof section !== 'object') return SECTIONS.find(({ id }) => id === section)?.headWidthMm
  return 'rectangles' in section ? section.rectangles.at(-1)?.width : section.headWidth
}

/** The length that trimming takes off every bent piece. */
export function trimOf(bender: BenderInput | undefined): number {
  return bender?.ends === 'trim' ? (bender.span ?? 0) : 0
}

function suppliesFaults(supplies: SuppliesDraft | undefined, trimMm: number): Fault[] {
  const faults: Fault[] = []
  const sticks = supplies?.sticks
  sticks?.forEach((stick, index) => {
    const twin = sticks.findIndex((other) => other && stick && !exceeds(Math.abs(other.length - stick.length), 0))
    if (stick && twin < index)
      faults.push({
        path: ['supplies', 'sticks', index, 'length'],
        code: 'duplicate-length',
        detail: `stick ${twin + 1} has the same length`,
        hint: 'list each length once, with its price and what is on hand together',
      })
  })
  if (sticks?.includes(null)) return faults
  const usable = sticks?.filter((stick) => stick && (stick.buyable !== false || (stick.onHand ?? 0) > 0))
  if (usable?.length === 0)
    return [
      ...faults,
      {
        path: ['supplies', 'sticks'],
        code: 'no-rail',
        detail: 'no stick can be bought and none is on hand',
        hint: 'leave out "buyable": false for a length, or give what is on hand',
      },
    ]
  const longestMm = usable ? Math.max(...usable.map((stick) => stick!.length)) : USUAL.stick.length
  const minimumPieceMm = supplies?.minimumPiece ?? USUAL.minimumPiece
  if (exceeds(minimumPieceMm, longestMm))
    faults.push({
      path: ['supplies', supplies?.minimumPiece === undefined ? 'sticks' : 'minimumPiece'],
      code: 'contradictory',
      detail: `the shortest piece allowed (${formatMm(minimumPieceMm, 3)}) is longer than the longest stick (${formatMm(longestMm, 3)})`,
      hint: 'set minimumPiece to the shortest piece that stays in line, 150 mm by default',
    })
  else if (trimMm > 0 && (exceeds(minimumPieceMm + trimMm, longestMm) || !exceeds(longestMm, trimMm)))
    faults.push({
      path: ['bender', 'ends'],
      code: 'contradictory',
      detail: `with both ends trimmed (${formatMm(trimMm, 3)}) the longest stick (${formatMm(longestMm, 3)}) is shorter than the shortest piece allowed`,
      hint: 'finish the ends by hand, or join the sticks and roll the joints too',
    })
  if (supplies?.kerf !== undefined && exceeds(supplies.kerf, longestMm))
    faults.push({
      path: ['supplies', 'kerf'],
      code: 'contradictory',
      detail: `one cut would take ${formatMm(supplies.kerf, 3)}, more than the longest stick`,
      hint: 'the kerf is the width of the saw cut, about 1 mm',
    })
  return faults
}
