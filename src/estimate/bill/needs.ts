import type { Need, Reason } from '../../laying/bill.ts'
import { inWholeOnes } from '../../laying/bill.ts'
import type { CutPlan } from '../../laying/cutting/cut-plan.ts'
import type { JoinedEnds } from '../../laying/joins.ts'
import { type JointKind, KIND_OF_BREAK, type RailJoint } from '../../laying/joints.ts'
import { toDegrees } from '../../measure/angle.ts'
import { formatFeetInches, formatMm } from '../../measure/length.ts'
import { sum } from '../../measure/sum.ts'
import { transitionsOf } from '../../plan/completing/supplies.ts'
import { type PanelSize, panelCurve, panelLengthMm } from '../../plan/panels.ts'
import type { Extra } from '../../plan/rows/ballast-power-extras.ts'
import { breakOf, RAIL_PART_NAMES, RAIL_PARTS, type RailPartName, railPartLabel } from '../../plan/rows/parts.ts'
import type { WholePlan } from '../../plan/rows/plan.ts'
import type { Panel, Stick, Supplies } from '../../plan/rows/supplies.ts'
import type { Coverage } from '../ready-made/coverage.ts'
import type { LiveFrogs } from './frogs.ts'

/** What the bill needs of a track: its ties, joiners and length. */
export interface TrackNeeds {
  readonly name: string
  readonly lengthMm: number
  readonly closed: boolean
  readonly joined: JoinedEnds
  /** Of both rails. */
  readonly joints: readonly RailJoint[]
  /** How many of its joints are with rail of another section. */
  readonly transitions: number
  readonly ties: number
  readonly tieSpacingMm: number
  readonly jointTies: number
  /** How many of its ties come with ready-made pieces. */
  readonly tiesIncluded: number
  /** How many come with turnouts. */
  readonly tiesOfTurnouts: number
  /** How many are replaced by long ties of turnouts that are built by hand. */
  readonly longTies: number
  /** Joiners between the rails of turnouts that are built by hand. */
  readonly joinersInTurnouts: number
  readonly liveFrogs: LiveFrogs
}

/**
 * Sticks, one line per length that is cut.
 *
 * @param tracksOfRuns the track of each run of the cut plan, by name
 */
export function railNeeds(
  cut: CutPlan['sticks'],
  tracksOfRuns: readonly string[],
  sticks: readonly Stick[],
  rail: { readonly name: string; readonly massPerMetreKg: number | null },
): Need[] {
  return sticks.flatMap((stick): Need[] => {
    const ofLength = cut.filter(({ lengthMm }) => lengthMm === stick.length)
    if (ofLength.length === 0) return []
    const massEachG = rail.massPerMetreKg === null ? null : rail.massPerMetreKg * stick.length
    const { packSize, onHand, price } = stick
    return [
      {
        item: 'rail-stick',
        description: `Rail, ${rail.name}, ${formatMm(stick.length)} (${formatFeetInches(stick.length)})`,
        lengthMm: stick.length,
        reasons: stickReasons(ofLength, tracksOfRuns),
        pack: { packSize, onHand, pricePerPack: price, sparePct: 0, massEachG },
      },
    ]
  })
}

/** Ready-made pieces, one line per piece that is used. */
export function panelNeeds(
  { used, stretches }: Coverage,
  panels: readonly Panel[],
  laid: readonly { readonly name: string }[],
): Need[] {
  return panels.flatMap((panel, index): Need[] => {
    const { packSize, onHand, price, massEachG } = panel
    const tracksOf = used
      .filter((each) => each.panel === index)
      .map(({ pieces }) => pieces.map(({ stretch }) => laid[stretches[stretch]!.track]!.name))
    if (tracksOf.length === 0) return []
    return [
      {
        item: 'panel',
        description: panelName(panel),
        reasons: byOwner(tracksOf, 'pieces'),
        pack: { packSize, onHand, pricePerPack: price, sparePct: 0, massEachG },
      },
    ]
  })
}

/** Such as "Curved track, 20 ft in diameter (R 3048 mm), 30°, with 24 ties". */
export function panelName(panel: Pick<Panel, 'name' | 'ties'> & PanelSize): string {
  const { name, ties } = panel
  const curve = panelCurve(panel)
  const lengthMm = panelLengthMm(panel)
  const measure = curve
    ? `Curved track, ${formatFeetInches(2 * curve.radiusMm)} in diameter (R ${formatMm(curve.radiusMm)}), ${degrees(curve.angleRad)}`
    : `Straight track, ${formatMm(lengthMm)} (${formatFeetInches(lengthMm)})`
  return `${measure}, ${ties > 0 ? `with ${ties} ${ties === 1 ? 'tie' : 'ties'}` : 'two rails'}${name ? `, ${name}` : ''}`
}

function degrees(rad: number): string {
  return `${Math.round(toDegrees(rad) * 1000) / 1000}°`
}

/** Sticks by the track they are cut for; a stick with pieces of several tracks is shared. */
function stickReasons(sticks: CutPlan['sticks'], tracksOfRuns: readonly string[]): Reason[] {
  return byOwner(
    sticks.map(({ pieces }) => pieces.map(({ run }) => tracksOfRuns[run]!)),
    'sticks',
  )
}

function byOwner(tracksOfEach: readonly (readonly string[])[], what: 'sticks' | 'pieces'): Reason[] {
  const counts = new Map<string | null, number>()
  for (const tracks of tracksOfEach) {
    const owner = new Set(tracks).size === 1 ? tracks[0]! : null
    counts.set(owner, (counts.get(owner) ?? 0) + 1)
  }
  const own = what === 'sticks' ? 'sticks for its rails' : 'pieces for it'
  return [...counts].map(([track, quantity]) => ({
    text: track === null ? `${what} shared by several tracks` : own,
    track,
    quantity,
  }))
}

/**
 * Joiners, ties or tie strips, and fasteners: on the bill even if none is needed. Insulated joiners and expansion
 * joints only where there are any.
 *
 * @param joinersIncluded joiners that come with ready-made pieces
 */
export function partNeeds(
  tracks: readonly TrackNeeds[],
  plan: Pick<WholePlan, 'supplies' | 'tracks' | 'rail'>,
  joinersIncluded: number,
): Need[] {
  const { supplies } = plan
  const meetsOtherRail = plan.tracks.some((track) => transitionsOf(track, plan.rail.section) > 0)
  const { ties, fasteners } = supplies
  const tieReasons = tracks.flatMap(
    ({ name, lengthMm, ties: count, tieSpacingMm, jointTies, tiesIncluded, tiesOfTurnouts, longTies }): Reason[] => [
      { text: `under ${metres(lengthMm)} of track, ${formatMm(tieSpacingMm, 2)} apart`, track: name, quantity: count },
      { text: 'added at joints', track: name, quantity: jointTies },
      { text: COMES_WITH_PIECES, track: name, quantity: -tiesIncluded },
      { text: 'included with turnouts', track: name, quantity: -tiesOfTurnouts },
      { text: 'replaced by long ties of turnouts', track: name, quantity: -longTies },
    ],
  )
  const { strip, fastenersPerTie } = ties
  const tieNeed: Need =
    strip === null
      ? { item: 'tie', description: 'Tie', reasons: tieReasons, pack: ties }
      : {
          item: 'tie-strip',
          description: `Tie strip of ${strip.ties} ties`,
          reasons: inWholeOnes(
            tieReasons.map(({ text, track, quantity }) => ({
              text: `${Math.abs(quantity)} ties ${text}`,
              track,
              quantity: quantity / strip.ties,
            })),
          ),
          pack: { ...strip, pricePerPack: strip.price },
        }
  return [
    needOf('joiners', joinerReasons(tracks, joinersIncluded), supplies),
    ...(meetsOtherRail ? [needOf('transitionJoiners', transitionReasons(tracks), supplies)] : []),
    ...RAIL_PART_NAMES.flatMap((name) => atBreaks(name, tracks, supplies)),
    tieNeed,
    {
      item: 'fastener',
      description: 'Fastener',
      reasons: tracks.flatMap((track) => [
        {
          text: `${fastenersPerTie} in each of ${looseTies(track)} ties`,
          track: track.name,
          quantity: looseTies(track) * fastenersPerTie,
        },
        {
          text: `${2 * fastenersPerTie} in each of ${track.longTies} long ties, for the rails of both legs`,
          track: track.name,
          quantity: 2 * track.longTies * fastenersPerTie,
        },
      ]),
      pack: fasteners,
    },
  ]
}

function looseTies({ ties, jointTies, tiesIncluded, tiesOfTurnouts, longTies }: TrackNeeds): number {
  return ties + jointTies - tiesIncluded - tiesOfTurnouts - longTies
}

const COMES_WITH_PIECES = 'included with ready-made pieces'

function needOf(name: RailPartName, reasons: readonly Reason[], supplies: Supplies): Need {
  return { item: RAIL_PARTS[name].item, description: railPartLabel(name, 'one'), reasons, pack: supplies[name] }
}

function transitionReasons(tracks: readonly TrackNeeds[]): Reason[] {
  const text = 'where it joins rail of another section'
  return tracks.map(({ name, transitions }) => ({ text, track: name, quantity: transitions }))
}

function atBreaks(part: RailPartName, tracks: readonly TrackNeeds[], supplies: Supplies): Need[] {
  const kind = breakOf(part)
  if (!kind) return []
  const reasons = tracks
    .flatMap((track) => [
      { text: 'at its breaks', track: track.name, quantity: ofKind(track, KIND_OF_BREAK[kind]) },
      ...(kind === 'insulated' ? atFrogs(track) : []),
    ])
    .filter(({ quantity }) => quantity > 0)
  return reasons.length > 0 ? [needOf(part, reasons, supplies)] : []
}

function atFrogs({ name, liveFrogs: { turnouts, insulatedJoiners } }: TrackNeeds): Reason[] {
  return [{ text: `at the live ${frogsOf(turnouts)}`, track: name, quantity: insulatedJoiners }]
}

function frogsOf(turnouts: readonly string[]): string {
  return `${turnouts.length === 1 ? 'frog' : 'frogs'} of ${turnouts.join(', ')}`
}

/** Joiners that come with ready-made pieces serve all tracks; any beyond the need are not counted. */
function joinerReasons(tracks: readonly TrackNeeds[], included: number): Reason[] {
  const reasons = tracks.flatMap(joinersOf)
  const needed = sum(reasons.map(({ quantity }) => quantity))
  return [...reasons, { text: COMES_WITH_PIECES, track: null, quantity: -Math.min(needed, included) }]
}

function joinersOf(track: TrackNeeds): Reason[] {
  const { name, joined, joints, transitions, joinersInTurnouts, liveFrogs } = track
  const at = (end: 'start' | 'end') =>
    joints.filter(({ kind, stationMm }) => kind === 'join' && stationMm > 0 === (end === 'end')).length
  const joins = (ends: readonly ('start' | 'end')[]) => ends.reduce((sum, end) => sum + at(end), 0)
  return [
    { text: 'between the pieces of its rails', track: name, quantity: ofKind(track, 'joiner') },
    { text: 'where the loop closes', track: name, quantity: ofKind(track, 'closing') },
    { text: 'at the ends of bridges', track: name, quantity: ofKind(track, 'bridge-end') },
    { text: 'where it joins existing track', track: name, quantity: joins(joined.existing) - transitions },
    {
      text: 'where it joins another track of the plan',
      track: name,
      quantity: joins(joined.ofPlan.map(({ end }) => end)),
    },
    { text: 'where it joins a turnout', track: name, quantity: joins(joined.legs ?? []) },
    { text: 'in turnouts that are built by hand', track: name, quantity: joinersInTurnouts },
    { text: 'replaced by insulated ones at live frogs', track: name, quantity: -liveFrogs.joinersReplaced },
  ]
}

function ofKind({ joints }: TrackNeeds, kind: JointKind): number {
  return joints.filter((joint) => joint.kind === kind).length
}

/** Other things the plan lists, in whole numbers. */
export function extraNeeds(extras: readonly Extra[], tracks: readonly TrackNeeds[]): Need[] {
  return extras.map((extra): Need => {
    const { item, per, quantity } = extra
    const reasons =
      per === 'each'
        ? [{ text: 'as listed', track: null, quantity }]
        : tracks.map(({ name, lengthMm }) => ({
            text: `${quantity} for each metre of ${metres(lengthMm)}`,
            track: name,
            quantity: (quantity * lengthMm) / 1000,
          }))
    return {
      item: 'extra',
      description: item,
      reasons: inWholeOnes(reasons),
      pack: { ...extra, pricePerPack: extra.price },
    }
  })
}

function metres(mm: number): string {
  return `${(mm / 1000).toFixed(2)} m`
}
