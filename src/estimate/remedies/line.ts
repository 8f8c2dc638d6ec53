import { doubtfulFigures } from '../../checking/doubtful-figures.ts'
import type { Finding } from '../../checking/finding.ts'
import { QUICK_RULES } from '../../checking/rules.ts'
import { type Patch, patched } from '../../fitting/json-patch.ts'
import type { SentElement } from '../../fitting/patches.ts'
import { completeTrack } from '../../plan/completing/track.ts'
import { fittedElement } from '../../plan/elements.ts'
import { SILENT } from '../../plan/fields/complete.ts'
import { readable } from '../../plan/reading/schema.ts'
import { bulkFaults, oversizeFaults } from '../../plan/reading/size.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { ELEMENT, type ElementInput, type WholeTrack } from '../../plan/rows/track.ts'
import { planFaults } from '../faults/faults.ts'
import { type Plan, preparePlan } from '../plan.ts'
import { readPlan } from '../read-plan.ts'
import { checkLine } from '../stages/check-line.ts'
import { joinsOf } from '../track/joins.ts'
import { type LaidTrack, layTrack } from '../track/laid-track.ts'
import { placedTracks } from '../track/placed-tracks.ts'

/** The tracks of a plan in their places, and what is found on them before anything is cut or bent. */
export interface Line {
  readonly input: PlanInput
  readonly sent: unknown
  readonly plan: Plan
  readonly tracks: readonly LaidTrack[]
  readonly findings: readonly Finding[]
}

export function lineOf(input: PlanInput, sent: unknown): Line {
  const { plan } = preparePlan(input)
  return laidLine(input, sent, plan, (track) => layTrack(track, plan))
}

function laidLine(input: PlanInput, sent: unknown, plan: Plan, lay: (track: WholeTrack) => LaidTrack): Line {
  const tracks = plan.tracks.map(lay)
  const findings = [
    ...checkLine(tracks, plan, joinsOf(tracks, plan), QUICK_RULES),
    ...doubtfulFigures(sent, plan.tracks),
  ]
  return { input, sent, plan, tracks, findings }
}

/** The line of a plan with a patch applied; null where the patch does not fit or the plan has faults with it. */
export function lineAfter(patch: Patch, line: Line): Line | null {
  const sent = patched(line.sent, patch)
  if (sent === null) return null
  if (patch.every(({ path }) => ELEMENT_OF_A_TRACK.test(path))) return withOtherElements(sent, patch, line)
  const read = readPlan(sent)
  return read.ok ? lineOf(read.plan, sent) : null
}

const ELEMENT_OF_A_TRACK = /^\/tracks\/(\d+)\/elements\//

/** What a line is made of does not depend on more than its tracks, and those that are not changed stay as they are. */
function withOtherElements(sent: unknown, patch: Patch, line: Line): Line | null {
  const changed = new Set(patch.map(({ path }) => Number(ELEMENT_OF_A_TRACK.exec(path)![1])))
  const inputs: PlanInput['tracks'][number][] = []
  for (const [index, track] of line.input.tracks.entries()) {
    const elements = changed.has(index) ? readElements(sent, index, line) : track.elements
    if (elements === null) return null
    inputs.push({ ...track, elements })
  }
  const input: PlanInput = { ...line.input, tracks: inputs }
  if ([oversizeFaults(sent), planFaults(input), bulkFaults(input)].some((faults) => faults.length > 0)) return null
  const whole = inputs.map((track, index) => completeTrack(track, index, SILENT))
  const plan: Plan = { ...line.plan, tracks: placedTracks(whole, line.plan.special) }
  return laidLine(input, sent, plan, (track) => layTrack(track, plan))
}

/** The elements of a track as they are sent now; those that are the same as before are not read again. */
function readElements(sent: unknown, track: number, line: Line): PlanInput['tracks'][number]['elements'] | null {
  const before = new Map(
    sentElements(line, track).map((given, index) => [given, line.input.tracks[track]!.elements[index]!]),
  )
  const elements = listAt(sent, ['tracks', track, 'elements']).map(
    (given) => before.get(given as SentElement) ?? readElement(given),
  )
  return elements.length > 0 && elements.every((element) => element !== null) ? elements : null
}

/** A length of these elements, whose unit others are written in. */
export function unitOf(sent: readonly Readonly<Record<string, unknown>>[]): unknown {
  const lengths = sent.map(({ length, radius, diameter }) => length ?? radius ?? diameter)
  return lengths.find((given) => typeof given === 'string') ?? lengths[0]
}

function readElement(given: unknown): ElementInput | null {
  const element = readable(ELEMENT, given)
  return element && fittedElement(element)
}

/** The elements of a track as they were sent. */
export function sentElements({ sent }: Pick<Line, 'sent'>, track: number): readonly SentElement[] {
  return listAt(sent, ['tracks', track, 'elements']) as readonly SentElement[]
}
