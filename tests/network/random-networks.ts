import type { NetworkTrack } from '../../src/network/track.ts'
import { placeElements } from '../../src/track/place.ts'
import { specialTrackOf, turnoutEnds } from '../../src/track/turnout/special-track.ts'
import type { Pose } from '../../src/track/types.ts'

/* Networks as a short description, made into tracks; and, apart from src, what a train can do in them. */

type Leg = 'through' | 'diverging'

interface SketchedTurnout {
  readonly name: string
  /** Whether the track comes to it at the points. */
  readonly facing: boolean
  /** The leg along which the track runs. */
  readonly leg: Leg
}

export interface SketchedTrack {
  readonly name: string
  readonly closed: boolean
  readonly turnouts: readonly SketchedTurnout[]
  /** Names of turnouts whose other leg it comes from and goes to. */
  readonly from: string | null
  readonly to: string | null
}

const SPECIAL = specialTrackOf([{ id: 'six', hand: 'left', number: 6 }], 45)
const STRAIGHT_MM = 1000

/** Up to four tracks with up to four turnouts; about half of the free legs have a track. */
export function sketch(random: () => number): SketchedTrack[] {
  const count = 1 + Math.floor(random() * 4)
  const turnouts = Array.from({ length: Math.floor(random() * 5) }, (_, n) => ({
    host: Math.floor(random() * count),
    turnout: { name: `W${n + 1}`, facing: random() < 0.5, leg: random() < 0.7 ? 'through' : 'diverging' } as const,
  }))
  const free = turnouts.map(({ turnout: { name } }) => name)
  const takeFree = () =>
    free.length > 0 && random() < 0.7 ? free.splice(Math.floor(random() * free.length), 1)[0]! : null
  return Array.from({ length: count }, (_, n) => {
    const closed = random() < 0.3
    return {
      name: `T${n + 1}`,
      closed,
      turnouts: turnouts.filter(({ host }) => host === n).map(({ turnout }) => turnout),
      from: closed ? null : takeFree(),
      to: closed ? null : takeFree(),
    }
  })
}

/** A straight before, between and after the turnouts; each track lies far from the others. */
export function tracksOf(sketched: readonly SketchedTrack[]): NetworkTrack[] {
  const legBeside = new Map(
    sketched.flatMap(({ turnouts }) =>
      turnouts.map(({ name, leg }) => [name, leg === 'through' ? 'diverging' : 'through'] as const),
    ),
  )
  return sketched.map(({ name, closed, turnouts, from, to }, index): NetworkTrack => {
    const straight = { kind: 'tangent', length: STRAIGHT_MM, label: null } as const
    const passed = turnouts.map(({ name, facing, leg }) => ({
      kind: 'turnout' as const,
      name,
      type: 'six',
      enters: facing ? ('points' as const) : leg,
      leaves: facing ? leg : null,
      label: null,
    }))
    const start: Pose = { xMm: 0, yMm: 1e6 * index, headingRad: 0 }
    const placed = placeElements(
      start,
      [straight, ...passed.flatMap((turnout) => [turnout, straight])],
      closed,
      SPECIAL,
    )
    const at = (turnout: string | null) => (turnout === null ? null : { turnout, leg: legBeside.get(turnout)! })
    return {
      name,
      closed,
      state: 'new',
      joinsExisting: { start: false, end: false },
      before: null,
      lengthMm: placed.at(-1)!.toMm,
      start,
      end: placed.at(-1)!.end,
      placed,
      breaks: [],
      turnouts: passed.map(({ name, enters, leaves }, n) => {
        const element = 2 * n + 1
        const { fromMm, toMm } = placed[element]!
        const geometry = SPECIAL.turnouts.get('six')!
        const ends = turnoutEnds(geometry, enters, placed[element - 1]!.end)
        return { name, enters, leaves, element, geometry, ends, fromMm, toMm }
      }),
      crossings: [],
      legs: { start: at(from), end: at(to) },
    }
  })
}

/** The nth part of a track between the points of its turnouts, run over forwards or back; or the other leg of a turnout. */
export interface Run {
  readonly part: string
  readonly forwards: boolean
}

/** Every run of a network, and those that can follow it, from the sketch alone. */
export function movesOf(sketched: readonly SketchedTrack[]): { runs: Run[]; next: (run: Run) => Run[] } {
  const host = new Map(
    sketched.flatMap(({ name, turnouts }) =>
      turnouts.map((turnout, at) => [turnout.name, { track: name, at, ...turnout }] as const),
    ),
  )
  const used = sketched.flatMap(({ from, to }) => [from, to]).filter((name) => name !== null)
  const parts = [
    ...sketched.flatMap(({ name, turnouts }) => [...turnouts, null].map((_, at) => `${name}/${at}`)),
    ...used.map((name) => `leg/${name}`),
  ]
  const run = (part: string, forwards: boolean): Run => ({ part, forwards })
  /** Where a train is that comes to an end of a track. */
  const beyond = ({ name, closed, turnouts, from, to }: SketchedTrack, end: 'start' | 'end'): Run[] => {
    if (closed) return [end === 'end' ? run(`${name}/0`, true) : run(`${name}/${turnouts.length}`, false)]
    const leg = end === 'end' ? to : from
    return leg === null ? [] : [run(`leg/${leg}`, false)]
  }
  const next = ({ part, forwards }: Run): Run[] => {
    const [first, second] = part.split('/') as [string, string]
    if (first === 'leg') {
      const { track, at, facing } = host.get(second)!
      // Out of the leg over the points: back along the track if it comes to them facing.
      if (!forwards) return [facing ? run(`${track}/${at}`, false) : run(`${track}/${at + 1}`, true)]
      return sketched.flatMap((each) => [
        ...(each.from === second ? [run(`${each.name}/0`, true)] : []),
        ...(each.to === second ? [run(`${each.name}/${each.turnouts.length}`, false)] : []),
      ])
    }
    const track = sketched.find(({ name }) => name === first)!
    const at = Number(second)
    const turnout = track.turnouts[forwards ? at : at - 1]
    if (!turnout) return beyond(track, forwards ? 'end' : 'start')
    const along = run(`${first}/${forwards ? at + 1 : at - 1}`, forwards)
    const atPoints = turnout.facing === forwards
    return atPoints && used.includes(turnout.name) ? [along, run(`leg/${turnout.name}`, true)] : [along]
  }
  return { runs: parts.flatMap((part) => [run(part, true), run(part, false)]), next }
}
