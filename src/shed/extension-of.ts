import { preparePlan } from '../estimate/plan.ts'
import { readPlan } from '../estimate/read-plan.ts'

type Values = Readonly<Record<string, unknown>>

/**
 * The plan that extends a built one, as its author would write it: its tracks are existing, what was lifted is gone, and
 * nothing that was bought for it is bought again. What the plan had on hand is used up, so from now on the shed says
 * what is there. A track that was placed by one that is gone gets its coordinates. A blank track to begin with continues
 * from the last open one.
 */
export function extensionOf(plan: Values): Record<string, unknown> {
  const { extras: _, supplies, ...rest } = plan
  const tracks = rowsOf(plan.tracks)
  const staying = tracks.filter(({ state }) => state !== 'lifted')
  const gone = new Set(tracks.filter(({ state }) => state === 'lifted').map(({ name }) => name))
  const placed = placesOf(plan)
  const existing = staying.map((track) => existingTrack(track, gone, placed))
  return {
    ...rest,
    tracks: [...existing, blankTrack(existing)],
    ...(isValues(supplies) && { supplies: suppliesLeft(supplies) }),
  }
}

/** Where each track starts, by its name; empty where the plan cannot be read. */
function placesOf(plan: Values): ReadonlyMap<unknown, Values> {
  const read = readPlan(plan)
  if (!read.ok) return new Map()
  return new Map(
    preparePlan(read.plan).plan.tracks.map(({ name, start: { x, y, heading, elevation } }) => [
      name,
      { x, y, heading, ...(elevation !== null && { elevation }) },
    ]),
  )
}

function existingTrack(track: Values, gone: ReadonlySet<unknown>, placed: ReadonlyMap<unknown, Values>): Values {
  const { end, ...rest } = track
  const { start } = track
  const moved = isValues(start) && gone.has(start.after) && { start: placed.get(track.name) ?? {} }
  const held = end !== undefined && !(isValues(end) && gone.has(end.before)) && { end }
  return { ...rest, ...moved, ...held, state: 'existing' }
}

const NAME = 'extension'

function blankTrack(existing: readonly Values[]): Values {
  const names = new Set(existing.map(({ name }) => name))
  let name = NAME
  for (let number = 2; names.has(name); number++) name = `${NAME} ${number}`
  const joined = new Set(existing.flatMap(({ start }) => (isValues(start) ? [start.after] : [])))
  const last = existing.findLast(
    ({ closed, end, joinsExisting, name: its }) =>
      closed !== true && !joined.has(its) && !isSet(end, 'before') && !isSet(joinsExisting, 'end'),
  )
  return { name, ...(last && { start: { after: last.name } }), elements: [] }
}

/** Prices and packs as they were; nothing on hand, and no lengths that were only on hand. */
function suppliesLeft(supplies: Values): Record<string, unknown> {
  const left = Object.entries(supplies).map(([name, value]): [string, unknown] => {
    if (Array.isArray(value)) return [name, buyableOf(rowsOf(value)).map(withoutOnHand)]
    if (!isValues(value)) return [name, value]
    const { strip } = value
    return [name, { ...withoutOnHand(value), ...(isValues(strip) && { strip: withoutOnHand(strip) }) }]
  })
  return Object.fromEntries(left)
}

function buyableOf(rows: readonly Values[]): readonly Values[] {
  const buyable = rows.filter((row) => row.buyable !== false)
  return buyable.length > 0 ? buyable : rows
}

function withoutOnHand({ onHand: _, ...rest }: Values): Values {
  return rest
}

function isSet(value: unknown, field: string): boolean {
  return isValues(value) && Boolean(value[field])
}

function rowsOf(value: unknown): Values[] {
  return Array.isArray(value) ? value.filter(isValues) : []
}

function isValues(value: unknown): value is Values {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
