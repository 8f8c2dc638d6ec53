import { posted, type WorstRequest } from './requests.ts'

/** How much there is of each thing in a plan, and what is asked of it. */
export type Sizes = Record<keyof typeof DIMENSIONS, number>

/** From what makes no work to the most the limits allow; the plans they make together may be refused. */
export const DIMENSIONS = {
  elements: [1, 2_500],
  lengthMm: [200, 9_000],
  radii: [0, 2_500],
  tracks: [1, 100],
  breaks: [0, 500],
  keepOut: [0, 100],
  staggerMm: [0, 900],
  betweenTies: [0, 1],
  trim: [0, 1],
  stickLengths: [1, 20],
  onHand: [0, 200],
  chords: [1, 20],
  panels: [0, 40],
  gradePoints: [0, 1_000],
  climate: [0, 1],
  power: [0, 1],
  closed: [0, 1],
  thorough: [0, 1],
  testBends: [0, 20],
  pressed: [0, 1],
} as const

const NAMES = Object.keys(DIMENSIONS) as (keyof typeof DIMENSIONS)[]
const LEAST = Object.fromEntries(NAMES.map((name) => [name, DIMENSIONS[name][0]])) as Sizes

/** Each of some things, by its number. */
const times = <T>(count: number, make: (n: number) => T): T[] =>
  Array.from({ length: Math.round(count) }, (_, n) => make(n))

function elementsOf({ elements, tracks, lengthMm, radii }: Sizes, track: number) {
  const own = Math.max(1, Math.round(elements / tracks))
  return times(own, (n) => {
    const mm = lengthMm * (0.7 + 0.6 * (((n * 389 + track * 131) % 97) / 97))
    if (n % 2 === 0 || radii < 1) return { kind: 'tangent', length: Number(mm.toFixed(1)) }
    const radius = 1800 + (n % Math.round(radii)) * 1.37
    return { kind: 'arc', radius, angle: Math.min(90, (mm / radius) * 57), turn: n % 4 < 2 ? 'left' : 'right' }
  })
}

/** A plan of these sizes, as a client sends it. */
export function planOf(sizes: Sizes): Record<string, unknown> {
  const { tracks, breaks, keepOut, gradePoints, closed, lengthMm, elements } = sizes
  const trackMm = Math.max(1, elements / tracks) * lengthMm * 0.65
  const each = Math.max(1, Math.round(tracks))
  const share = (count: number) => Math.floor(count / each)
  return {
    rail: {
      section: '250',
      material: 'brass',
      ...(sizes.testBends >= 1
        ? { calibration: times(sizes.testBends, (n) => ({ formedRadius: 900 + n * 60, restingRadius: 1100 + n * 85 })) }
        : { temper: 'half-hard' }),
    },
    tracks: times(each, (t) => ({
      name: `t${t}`,
      start: { x: 0, y: t * 400 },
      ...(closed >= 1 && { closed: true }),
      elements: elementsOf(sizes, t),
      breaks: times(share(breaks), (n) => ({ at: ((n + 0.5) * trackMm) / share(breaks), kind: 'insulated' })),
      keepOut: times(share(keepOut), (n) => {
        const from = ((n + 0.2) * trackMm) / share(keepOut)
        return { from, to: from + trackMm / share(keepOut) / 9 }
      }),
      gradeLine: times(share(gradePoints), (n) => ({ at: (n * trackMm) / share(gradePoints), elevation: (n % 5) * 2 })),
    })),
    joints: { ...(sizes.staggerMm >= 1 && { stagger: sizes.staggerMm }), betweenTies: sizes.betweenTies >= 1 },
    supplies: {
      sticks: times(sizes.stickLengths, (n) => ({
        length: 900 + n * 97.3,
        price: (9 + n * 0.83).toFixed(2),
        onHand: Math.round(sizes.onHand / sizes.stickLengths),
      })),
      ...(sizes.panels >= 1 && {
        panels: times(sizes.panels, (n) => ({ length: 400 + n * 30, price: `${5 + n}.00` })),
      }),
    },
    chords: times(sizes.chords, (n) => 100 + n * 13),
    ...(sizes.climate >= 1 && { climate: { coldest: -10, hottest: 35, laying: 15 } }),
    ...(sizes.power >= 1 && { power: { currentA: 5, supplyVoltageV: 18 } }),
    ...((sizes.trim >= 1 || sizes.pressed >= 1) && {
      bender: {
        span: 120,
        outerRollerRadius: 12,
        bearsOn: 'foot',
        mode: sizes.pressed >= 1 ? 'pressed' : 'rolled',
        ...(sizes.trim >= 1 && { ends: 'trim' }),
      },
    }),
    effort: sizes.thorough >= 1 ? 'thorough' : 'quick',
  }
}

/** Some of everything, so that there is something that two things can make worse. */
const SOME: Sizes = { ...LEAST, elements: 200, lengthMm: 2_000, radii: 20, stickLengths: 2 }

/** Every two dimensions at their most, the others small. */
export const PAIRS: readonly WorstRequest[] = NAMES.flatMap((one, n) =>
  NAMES.slice(n + 1).map((other) =>
    posted(`pair ${one}, ${other}`, '/v1/estimates', () =>
      planOf({ ...SOME, [one]: DIMENSIONS[one][1], [other]: DIMENSIONS[other][1] }),
    ),
  ),
)

/** Sizes at random, more often small than large: what is large is given to another thread anyway. */
export function randomSizes(random: () => number): Sizes {
  return Object.fromEntries(NAMES.map((name) => [name, randomSize(name, random)])) as Sizes
}

function randomSize(name: keyof typeof DIMENSIONS, random: () => number): number {
  const [least, most] = DIMENSIONS[name]
  if (most === 1) return random() < 0.3 ? 1 : 0
  return least + (most - least) * random() ** 5
}

/** The same with one or two sizes changed: a little, by much, or anew. */
export function changedSizes(sizes: Sizes, random: () => number): Sizes {
  const changed = { ...sizes }
  for (let left = random() < 0.5 ? 1 : 2; left > 0; left--) {
    const name = NAMES[Math.floor(random() * NAMES.length)]!
    const [least, most] = DIMENSIONS[name]
    const kind = random()
    const factor = kind < 0.4 ? 0.7 + 0.7 * random() : 4 ** (2 * random() - 1)
    const size = kind < 0.75 && most > 1 ? changed[name] * factor : randomSize(name, random)
    changed[name] = Math.min(most, Math.max(least, size))
  }
  return changed
}
