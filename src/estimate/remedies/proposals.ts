import { fieldOverAFoot } from '../../checking/doubtful-figures.ts'
import type { Finding } from '../../checking/finding.ts'
import { byArcsAndStraights, closings, tolerancesOf } from '../../fitting/closings.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import type { Closing } from '../../fitting/loop.ts'
import { mmOf, patchesOf, radiusLike } from '../../fitting/patches.ts'
import { turnedBack } from '../../fitting/turned-back.ts'
import { toDegrees } from '../../measure/angle.ts'
import { angleLike, lengthLike } from '../../measure/as-written.ts'
import { formatFeetInches } from '../../measure/length.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import { obstacleProposals, spacingProposals } from './aside-proposals.ts'
import { crossingProposals, overCrossingProposals } from './crossing-proposals.ts'
import { longerSiding } from './fouling-proposals.ts'
import { gradeProposals, legLevelProposals, levelProposals, verticalCurveProposals } from './grade-proposals.ts'
import { handProposals } from './hand-proposals.ts'
import { insulatedProposals } from './insulated-proposals.ts'
import { LAID_PROPOSALS } from './laid-proposals.ts'
import { longerLead } from './lead-proposals.ts'
import { type Line, sentElements, unitOf } from './line.ts'
import { longerBy } from './longer.ts'
import { stepProposals } from './step-proposals.ts'
import { straightFrogs } from './straight-frogs.ts'
import { averagedProposals, trainProposals } from './train-proposals.ts'
import { widerCrossover } from './wider-crossover.ts'

/** What may cure a finding, best first; each is still to be tried. Rules without an entry have no such cure. */
export function proposalsFor(finding: Finding, line: Line): Patch[] {
  const track = line.tracks.findIndex(({ name }) => name === finding.track)
  if (track < 0) return []
  const propose = PROPOSALS[finding.rule]
  return propose ? propose(finding, line, track) : []
}

/** Whether only cutting the plan again shows that a proposal cures it. */
export function takesCutting(rule: string): boolean {
  return Object.hasOwn(LAID_PROPOSALS, rule)
}

/** Whether anything is ever proposed against a rule. */
export function hasProposals(rule: string): boolean {
  return Object.hasOwn(PROPOSALS, rule)
}

type Propose = (finding: Finding, line: Line, track: number) => Patch[]

const PROPOSALS: Readonly<Record<string, Propose>> = {
  closure: ({ unit }, line, track) => {
    const ways = waysToClose(line, track)
    return [
      ...(unit === '°' ? turningPatches(line, track, ways) : []),
      ...closingPatches(line, track, ways),
      ...levelProposals(line, track),
    ]
  },
  'leg-not-met': (_, line, track) => [
    ...handProposals(line, track),
    ...heldPatches(line, track),
    ...legLevelProposals(line, track),
  ],
  'minimum-radius': largerRadius,
  'reverse-curve': (finding, line, track) => [
    ...longerStraight(finding, line, track),
    ...widerCrossover(finding, line, track),
    ...straightFrogs(finding, line, track),
  ],
  'curvature-jump': easementBetween,
  'maximum-grade': gradeProposals,
  'averaged-grade': averagedProposals,
  'height-step': stepProposals,
  'vertical-curve': verticalCurveProposals,
  'train-stalls': trainProposals,
  'train-runs-away': trainProposals,
  'chord-too-long': withoutChord,
  'diameter-or-radius': asRadius,
  'unit-in-doubt': withUnit,
  'inches-over-a-foot': inFeetAndInches,
  'more-than-a-turn': lessThanATurn,
  'turnout-spacing': longerStraight,
  fouling: longerSiding,
  obstacle: obstacleProposals,
  outline: obstacleProposals,
  'track-spacing': spacingProposals,
  runaround: longerLead,
  switchback: longerLead,
  'self-crossing': crossingProposals,
  'over-crossing': overCrossingProposals,
  'polarity-loop': insulatedProposals,
  'polarity-wye': insulatedProposals,
  ...LAID_PROPOSALS,
}

function elementsAt(track: number): string {
  return `/tracks/${track}/elements`
}

/** The ways to close a track; none for one that is not to be closed. */
function waysToClose({ tracks, plan }: Line, track: number): Closing[] {
  const { closed, placed } = tracks[track]!
  return closed ? closings(placed, tolerancesOf(plan.standards)) : []
}

/** The same, each with figures that are rounded less and less. */
export function closingPatches(line: Line, track: number, ways = waysToClose(line, track)): Patch[] {
  return ways.flatMap(({ changes }) => patchesOf(changes, elementsAt(track), sentElements(line, track)))
}

/** A wrong turn, where that is not all that is wrong with a track: otherwise it is among the ways to close it. */
function turningPatches(line: Line, track: number, ways: readonly Closing[]): Patch[] {
  const { closed, placed } = line.tracks[track]!
  if (!closed || ways.some(({ changes }) => changes.some(({ field }) => field === 'turn'))) return []
  return turnedBack(placed, tolerancesOf(line.plan.standards)).flatMap((change) =>
    patchesOf([change], elementsAt(track), sentElements(line, track)).slice(0, 1),
  )
}

/** The ways to bring an end to a place of its own. */
function heldPatches(line: Line, track: number): Patch[] {
  const { heldAt, placed } = line.tracks[track]!
  if (!heldAt) return []
  return byArcsAndStraights(placed, tolerancesOf(line.plan.standards), heldAt.pose).flatMap(({ changes }) =>
    changes.length === 0 ? [] : patchesOf(changes, elementsAt(track), sentElements(line, track)),
  )
}

/** The radius at the limit: of this arc alone, or of all that are tighter. */
function largerRadius({ element, limit }: Finding, line: Line, track: number): Patch[] {
  const sent = sentElements(line, track)
  const step = (index: number): Patch[number] => {
    const { field, value } = radiusLike(sent[index]!, limit!, 0, 'up')
    return { op: 'replace', path: `${elementsAt(track)}/${index}/${field}`, value }
  }
  // The closure of a turnout is not in the element.
  if (line.tracks[track]!.placed[element!]!.kind !== 'arc') return []
  const tight = line.findings.filter(
    ({ rule, track: name, element: at }) =>
      rule === 'minimum-radius' && name === line.tracks[track]!.name && line.tracks[track]!.placed[at!]!.kind === 'arc',
  )
  const all = tight.map((each) => step(each.element!))
  return all.length > 1 ? [[step(element!)], all] : [all]
}

/** The straight between two curves made as long as it must be; where there is none, one is put in. */
function longerStraight({ element, measured, limit }: Finding, line: Line, track: number): Patch[] {
  const before = line.tracks[track]!.placed[element! - 1]
  const byMm = before?.kind === 'tangent' ? limit! - measured! : limit!
  return [[longerBy(line, track, before, byMm, element!).step]]
}

/**
 * An easement as long as the longest car (a third of the minimum radius, where that is not known) before or behind the
 * arc, which gives up the angle L/2R that the easement turns.
 */
function easementBetween({ element }: Finding, line: Line, track: number): Patch[] {
  const { placed } = line.tracks[track]!
  const { longestCar, minimumRadius } = line.plan.standards
  const sent = sentElements(line, track)
  const mm = longestCar ?? (minimumRadius ?? 600) / 3
  const length = lengthLike(unitOf(sent), mm, 0, 'up')
  const at = elementsAt(track)
  const here = placed[element!]!
  const arc = here.kind === 'arc' ? here : placed.at(element! - 1)!
  const add: Patch[number] = { op: 'add', path: `${at}/${element}`, value: { kind: 'easement', length } }
  const given = sent[arc.index]!
  if (arc.kind !== 'arc' || [here, placed.at(element! - 1)!].every(({ kind }) => kind === 'arc')) return [[add]]
  const angleRad = Math.abs(arc.turnedRad) - (mmOf(length) / 2) * Math.abs(arc.startCurvature)
  if (angleRad < 0.01) return []
  const shorter: Patch[number] =
    given.angle === undefined
      ? {
          op: 'replace',
          path: `${at}/${arc.index}/length`,
          value: lengthLike(given.length, angleRad / Math.abs(arc.startCurvature), 0),
        }
      : { op: 'replace', path: `${at}/${arc.index}/angle`, value: angleLike(toDegrees(angleRad), 2) }
  return [[shorter, add]]
}

/** Leaves the chord out, unless it is the only one. */
function withoutChord({ measured }: Finding, { sent, plan }: Line): Patch[] {
  const given = listAt(sent, ['chords'])
  const others = plan.chords.filter((mm) => mm !== measured)
  if (others.length === 0) return []
  if (given.length === 0) return [[{ op: 'add', path: '/chords', value: [...others] }]]
  const index = given.findIndex((chord) => Math.abs(mmOf(chord) - measured!) < 1e-6)
  return index < 0 ? [] : [[{ op: 'remove', path: `/chords/${index}` }]]
}

/** Every curve of that diameter gets it as its radius. */
function asRadius({ element }: Finding, line: Line, track: number): Patch[] {
  const sent = sentElements(line, track)
  const meant = sent[element!]!.diameter as number | string
  return [
    sent.flatMap(({ diameter }, index): Patch => {
      if (diameter !== meant) return []
      const at = `${elementsAt(track)}/${index}`
      return [
        { op: 'remove', path: `${at}/diameter` },
        { op: 'add', path: `${at}/radius`, value: meant },
      ]
    }),
  ]
}

/** In feet, in metres or in inches; first in what other lengths of the track are in. */
function withUnit({ element }: Finding, line: Line, track: number): Patch[] {
  const sent = sentElements(line, track)
  const others = sent.map(({ length }) => (typeof length === 'string' ? length : '')).join(' ')
  const units = ['ft', 'm', 'in', 'cm'].toSorted(
    (a, b) => Number(others.includes(` ${b}`)) - Number(others.includes(` ${a}`)),
  )
  const path = `${elementsAt(track)}/${element}/length`
  return units.map((unit): Patch => [{ op: 'replace', path, value: `${String(sent[element!]!.length)} ${unit}` }])
}

/** The same length, its inches under twelve. */
function inFeetAndInches({ element }: Finding, line: Line, track: number): Patch[] {
  const given = sentElements(line, track)[element!]!
  const field = fieldOverAFoot(given)
  if (field === null) return []
  const value = formatFeetInches(mmOf(given[field]), 64)
  return [[{ op: 'replace', path: `${elementsAt(track)}/${element}/${field}`, value }]]
}

/** Whole turns left out, or a digit too many. */
function lessThanATurn({ element, measured }: Finding, _: Line, track: number): Patch[] {
  const path = `${elementsAt(track)}/${element}/angle`
  const angles = [measured! % 360, measured! / 10].filter((angle) => angle > 0.1)
  return angles.map((angle): Patch => [{ op: 'replace', path, value: angleLike(angle, 6) }])
}
