import type { Network, Stretch } from './network.ts'
import { type Section, type Sections, type Station, sectionsOf } from './sections.ts'
import { type Step, shortestShort } from './short-circuit.ts'

/** Where the left rail of a track leads to its own right rail. */
export interface Short {
  /** A loop comes back over one turnout by its other leg; a wye has three such turnouts. */
  readonly kind: 'loop' | 'wye'
  /** Index of a track on it: the first with a place for a break. */
  readonly track: number
  /** Where trains turn back into their own track: the names of the turnouts. */
  readonly turnouts: readonly string[]
  /** Insulated breaks around it: none or one, and it takes two. */
  readonly breaks: number
  /** Where breaks can be: at both ends of its longest side. */
  readonly breakAt: readonly Station[]
}

/** More than this are not listed. */
const MOST_LISTED = 50

/** Rails looked at in search of the shortest circles; a garden's plan takes some thousands. */
const MOST_WORK = 300_000

/**
 * Reverse loops and wyes without insulated breaks at both ends. A short is found where a left rail leads to the right
 * rail of the same place, over one break at most: with two, the rails between them are a section that can be switched
 * over while a train stands in it. Each is taken to be broken as proposed before the next is looked for, so that none is
 * found twice.
 */
export function shortsOf(network: Network): Short[] {
  const found: Short[] = []
  const broken: Station[] = []
  const work = { left: MOST_WORK }
  while (found.length < MOST_LISTED) {
    const sections = sectionsOf(network, broken)
    const circle = shortestShort(sections, work)
    if (!circle) break
    const short = describe(circle, sections, network)
    found.push(short)
    // Where there is no room for breaks the rest cannot be told.
    if (short.breakAt.length < 2) break
    broken.push(...short.breakAt)
  }
  return found
}

/** Goes round it from one turn-back to the next. */
function describe(circle: readonly Step[], { sections }: Sections, network: Network): Short {
  const turns = circle.flatMap(({ leaves, came }, at) => (leaves === came ? [at] : []))
  const names = turns.flatMap((at) => {
    const { leaves } = circle[at]!
    const { stretch } = sections[leaves >> 1]!
    const name = network.points.get(2 * stretch + (leaves % 2))?.name
    return name === undefined ? [] : [name]
  })
  const sides = turns.map((from, n) => {
    const to = turns[n + 1] ?? turns[0]! + circle.length
    return Array.from({ length: to - from - 1 }, (_, at) => circle[(from + 1 + at) % circle.length]!)
  })
  const lengthOf = (side: readonly Step[]) =>
    side.reduce((sum, { leaves }) => sum + sections[leaves >> 1]!.toMm - sections[leaves >> 1]!.fromMm, 0)
  const places = sides
    .toSorted((a, b) => lengthOf(b) - lengthOf(a))
    .map((side) => breaksFor(side, sections, network))
    .find((side) => side.length === 2)
  return {
    kind: turns.length === 1 ? 'loop' : 'wye',
    track: places?.[0]?.track ?? network.stretches[sections[circle[0]!.leaves >> 1]!.stretch]!.track,
    turnouts: [...new Set(names)],
    breaks: circle.filter((step) => step.broken && isOfPlan(step, sections, network)).length,
    breakAt: places ?? [],
  }
}

/** Whether the plan has the break at which a step leaves, or it is one that was proposed for another short. */
function isOfPlan({ leaves }: Step, sections: readonly Section[], { stretches, tracks }: Network): boolean {
  const { stretch, fromMm, toMm } = sections[leaves >> 1]!
  const atMm = leaves % 2 === 0 ? fromMm : toMm
  return tracks[stretches[stretch]!.track]!.breaks.some(({ at, kind }) => at === atMm && kind === 'insulated')
}

/** Behind the turnouts at both ends of a side; fewer than two where it has no room. */
function breaksFor(side: readonly Step[], sections: readonly Section[], network: Network): Station[] {
  const back = side.toReversed().map(({ came, leaves }) => ({ came: leaves, leaves: came }))
  const ends = [side, back].flatMap((steps): Station[] => {
    for (const { came } of steps) {
      const section = sections[came >> 1]!
      const stretch = network.stretches[section.stretch]!
      if (stretch.legOf === null)
        return [{ track: stretch.track, atMm: behindTurnout(came, section, stretch, network) }]
    }
    return []
  })
  const [first, second] = ends
  const same = first && second && first.track === second.track && Math.abs(first.atMm - second.atMm) < 1
  return same ? [] : ends
}

/** Where a section begins that is entered by an end, behind the leg that it begins with, if it does. */
function behindTurnout(came: number, section: Section, stretch: Stretch, { tracks }: Network): number {
  const forwards = came % 2 === 0
  const atMm = forwards ? section.fromMm : section.toMm
  const turnout = tracks[stretch.track]!.turnouts.find(({ enters, fromMm, toMm }) =>
    forwards ? enters === 'points' && fromMm === atMm : enters !== 'points' && toMm === atMm,
  )
  if (!turnout) return atMm
  return forwards ? turnout.toMm : turnout.fromMm
}
