import type { Patch } from '../../fitting/json-patch.ts'
import { lengthLike } from '../../measure/as-written.ts'
import type { Fault } from '../../measure/fault.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { envelopeOf } from '../../plan/reading/schema.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { MOVE } from '../../plan/rows/questions.ts'
import type { TrackInput } from '../../plan/rows/track.ts'
import { hosts } from '../fitted/places.ts'
import { inPlan, readPlan } from '../read-plan.ts'

/** A track to be moved, in the plan as it was read and as it was sent. */
export interface MoveAsked {
  readonly plan: PlanInput
  readonly sent: unknown
  readonly track: number
  readonly byMm: { readonly x: number; readonly y: number }
}

export type ReadMove =
  | { readonly ok: true; readonly asked: MoveAsked }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const Envelope = envelopeOf(MOVE, 'plan')

/** Reads what is to be moved, with every fault of the plan and around it at once. */
export function readMove(raw: unknown): ReadMove {
  const envelope = Envelope.safeParse(raw)
  const faults = envelope.success ? [] : faultsOf(envelope.error.issues, raw)
  const sent = valueAt(raw, ['plan'])
  const read = sent === undefined ? null : readPlan(sent)
  if (read && !read.ok) faults.push(...read.faults.map(inPlan))
  if (!envelope.success || !read?.ok || faults.length > 0) return { ok: false, faults }
  const { track: name, x = 0, y = 0 } = envelope.data
  const { plan } = read
  const track = plan.tracks.findIndex((each) => each.name === name)
  if (track < 0) return { ok: false, faults: [notThere(name, plan)] }
  const bound = boundFault(plan.tracks[track]!)
  if (bound) return { ok: false, faults: [bound] }
  return { ok: true, asked: { plan, sent, track, byMm: { x, y } } }
}

function notThere(name: string, { tracks }: PlanInput): Fault {
  return {
    path: ['track'],
    code: 'unknown-value',
    detail: `there is no track "${name}" in this plan`,
    hint: `one of ${tracks.map((track) => `"${track.name}"`).join(', ')}`,
  }
}

/** Why a track cannot be moved by itself. */
function boundFault({ name, start }: TrackInput): Fault | null {
  const from = start?.after === undefined ? start?.from && `turnout "${start.from.turnout}"` : `track "${start.after}"`
  if (!from) return null
  return {
    path: ['track'],
    code: 'contradictory',
    detail: `"${name}" starts at ${from}, and lies where that lies`,
    hint: 'move the track that it starts from, which takes it along',
  }
}

/** What moves a track: its start and, where that is a position, the place its end must come to. */
export function movedPatch(
  { sent, track, byMm }: Pick<MoveAsked, 'sent' | 'track' | 'byMm'>,
  { start, end }: TrackInput,
): Patch {
  const at = `/tracks/${track}`
  const given = (...path: string[]) => valueAt(sent, ['tracks', track, ...path])
  const unit = unitIn(sent, track)
  const axes = (path: string, place: { readonly x?: number | undefined; readonly y?: number | undefined }): Patch =>
    (['x', 'y'] as const)
      .filter((axis) => byMm[axis] !== 0)
      .map((axis) => {
        const old = given(...path.split('/'), axis)
        const value = lengthLike(old ?? unit, (place[axis] ?? 0) + byMm[axis], FINE)
        return { op: 'add', path: `${at}/${path}/${axis}`, value }
      })
  return [
    ...(given('start') === undefined ? [{ op: 'add' as const, path: `${at}/start`, value: {} }] : []),
    ...axes('start', start ?? {}),
    ...(end?.at ? axes('end/at', end.at) : []),
  ]
}

/** Thousandths of a millimetre or of an inch. */
const FINE = 3

/** A length of the track, in whose unit a new one is written. */
function unitIn(sent: unknown, track: number): unknown {
  const lengths = (listAt(sent, ['tracks', track, 'elements']) as Record<string, unknown>[]).map(({ length }) => length)
  return lengths.find((length) => typeof length === 'string' && length !== 'fit') ?? 0
}

/** The names of a track and of all that lie where it lies: those that continue from it or leave its turnouts, and so on. */
export function movedWith({ tracks }: PlanInput, track: number): string[] {
  const moved = new Set([track])
  for (const index of moved)
    for (const [other, { start }] of tracks.entries()) {
      const { name, elements } = tracks[index]!
      if (start?.after === name || (start?.from && hosts(elements, start.from.turnout))) moved.add(other)
    }
  return [...moved].map((index) => tracks[index]!.name)
}
