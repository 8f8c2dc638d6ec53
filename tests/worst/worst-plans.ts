/** Plans, each of them the worst of one dimension that the limits allow, as a client sends them. */

type Plan = Record<string, unknown>

const RAIL = { section: '250', material: 'brass', temper: 'half-hard' }
const FT = 304.8

export function straight(lengthMm: number, more: Plan = {}): Plan {
  const { track = {}, ...rest } = more as { track?: Plan }
  return {
    rail: RAIL,
    tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: lengthMm }], ...track }],
    ...rest,
  }
}

const stickFt = (...feet: number[]) => ({ sticks: feet.map((ft) => ({ length: ft * FT, price: '10.00' })) })

/** A track with joint rules that hardly ever fit the sticks. */
export const staggered = (lengthMm: number, effort = 'quick'): Plan =>
  straight(lengthMm, { joints: { stagger: 500 }, supplies: stickFt(6, 3), effort })

export const betweenTies = (lengthMm: number): Plan =>
  straight(lengthMm, {
    joints: { betweenTies: true },
    supplies: { sticks: [{ length: 1000, price: '10.00' }], ties: { spacing: 997 } },
  })

/** Breaks at uneven distances, with a stagger between them. */
export const broken = (breaks: number): Plan =>
  straight(breaks * 3100, {
    track: {
      breaks: Array.from({ length: breaks - 1 }, (_, n) => ({ at: (n + 1) * 3100 + (n % 7) * 13, kind: 'turnout' })),
    },
    joints: { stagger: 500 },
    supplies: stickFt(6, 3),
  })

export const manyLengths = (lengthMm: number): Plan =>
  straight(lengthMm, {
    supplies: {
      sticks: Array.from({ length: 20 }, (_, n) => ({ length: 900 + n * 97.3, price: (9 + n * 0.83).toFixed(2) })),
    },
  })

/** A grade line that goes up and down. */
export const seesaw = (heightMm: number, points = 1_999, lengthMm = 3_000): Plan =>
  straight(lengthMm, {
    track: {
      gradeLine: Array.from({ length: points }, (_, n) => ({
        at: (n * lengthMm) / points,
        elevation: n % 2 === 0 ? heightMm : -heightMm,
      })),
    },
  })

/** Curves that all have radii of their own, measured on all the chords there may be. */
export const manyRadii = (elements: number, chords = 20): Plan => ({
  rail: RAIL,
  tracks: [
    {
      name: 'main',
      elements: Array.from({ length: elements }, (_, n) => ({
        kind: 'arc',
        radius: 2500 + n * 0.731,
        length: 300,
        turn: n % 2 === 0 ? 'left' : 'right',
      })),
    },
  ],
  chords: Array.from({ length: chords }, (_, n) => 100 + n * 10),
})

/** A long line of everything, as in the benchmarks. */
export function winding(elements: number, more: Plan = {}): Plan {
  const kinds = [
    (n: number) => ({ kind: 'tangent', length: `${4 + (n % 5)} ft` }),
    () => ({ kind: 'easement', length: '2 ft' }),
    (n: number) => ({
      kind: 'arc',
      diameter: `${16 + (n % 4)} ft`,
      angle: 20 + (n % 7) * 5,
      turn: n % 12 < 6 ? 'left' : 'right',
    }),
    () => ({ kind: 'easement', length: '2 ft' }),
  ]
  return {
    rail: RAIL,
    tracks: [
      {
        name: 'main',
        elements: Array.from({ length: elements }, (_, n) => kinds[n === elements - 1 ? 0 : n % kinds.length]!(n)),
      },
    ],
    supplies: stickFt(5, 6),
    ...more,
  }
}

/** A line that could be made of ready-made pieces in very many ways. */
export function readyMade(elements: number, panels = 40): Plan {
  return {
    rail: RAIL,
    tracks: [
      {
        name: 'main',
        elements: Array.from({ length: elements }, (_, n) =>
          n % 2 === 0
            ? { kind: 'tangent', length: 1200 + (n % 9) * 110 }
            : {
                kind: 'arc',
                radius: 1500 + (n % 5) * 300,
                angle: 22.5 + (n % 3) * 7.5,
                turn: n % 4 < 2 ? 'left' : 'right',
              },
        ),
      },
    ],
    supplies: {
      ...stickFt(5, 6),
      panels: Array.from({ length: panels }, (_, n) =>
        n % 2 === 0
          ? { length: 400 + n * 30, price: `${5 + n}.00` }
          : { radius: 1500 + (n % 5) * 300, angle: 15 + n * 0.75, price: `${6 + n}.00` },
      ),
    },
  }
}

/** Test bends and a bender whose passes have to be found by search. */
export const calibrated = (elements: number): Plan => ({
  ...manyRadii(elements, 2),
  rail: {
    section: '250',
    material: 'brass',
    calibration: Array.from({ length: 20 }, (_, n) => ({ formedRadius: 900 + n * 60, restingRadius: 1100 + n * 85 })),
  },
})

/** Many short tracks side by side. */
export const manyTracks = (tracks: number, elements: number): Plan => ({
  rail: RAIL,
  tracks: Array.from({ length: tracks }, (_, t) => ({
    name: `track ${t}`,
    start: { x: 0, y: t * 300 },
    elements: Array.from({ length: elements }, (_, n) =>
      n % 2 === 0
        ? { kind: 'tangent', length: 700 + ((t * 31 + n * 17) % 900) }
        : { kind: 'arc', radius: 2600 + (n % 9) * 50, angle: 15, turn: n % 4 < 2 ? 'left' : 'right' },
    ),
  })),
  joints: { stagger: 500 },
  supplies: stickFt(5, 6, 3),
})

/** A yard of long tracks, all of the same kinds of turnout. */
export const yard = (tracks: number): Plan => ({
  figure: 'ladder',
  turnoutTypes: ['left', 'right'].map((hand) => ({ id: hand, hand, number: 6 })),
  count: tracks,
  clear: 100_000,
})

/** A track of which every second element is an easement. */
export const doubled = (elements: number): Plan => ({
  figure: 'parallel',
  elements: Array.from({ length: elements }, (_, n) =>
    n % 2 === 1
      ? { kind: 'easement', length: 300 }
      : { kind: 'arc', radius: 2000 + (n % 4) * 500, angle: 30 + (n % 7), turn: n % 8 === 0 ? 'right' : 'left' },
  ),
})
/** Tracks that continue from each other, each with something open at its end, and where it must end. */
function fittedTracks(tracks: number, elements: number, open: readonly unknown[], heading: number): Plan {
  return {
    rail: RAIL,
    standards: { longestCar: 500, minimumRadius: 900 },
    tracks: Array.from({ length: tracks }, (_, t) => ({
      name: `track ${t}`,
      start: t === 0 ? { x: 0, y: 0 } : { after: `track ${t - 1}` },
      end: { at: { x: 18_000 * (t + 1), y: 700 * (t % 7), heading } },
      elements: [
        ...Array.from({ length: elements - open.length }, (_, n) =>
          n % 2 === 0
            ? { kind: 'tangent', length: 60 + ((t * 31 + n * 17) % 90) }
            : { kind: 'arc', radius: 2600 + (n % 9) * 50, angle: 2, turn: n % 4 < 2 ? 'left' : 'right' },
        ),
        ...open,
      ],
    })),
  }
}

/** With a connection of eased curves. */
export const connections = (tracks: number, elements: number): Plan =>
  fittedTracks(tracks, elements, [{ kind: 'connect', minimumRadius: 1000, easement: 200 }], 30)

/** With two angles and a length, which are looked for from many starts. */
export const unknowns = (tracks: number, elements: number): Plan =>
  fittedTracks(
    tracks,
    elements,
    [
      { kind: 'arc', radius: 1500, angle: 'fit', turn: 'left' },
      { kind: 'tangent', length: 'fit' },
      { kind: 'arc', radius: 1700, angle: 'fit', turn: 'right' },
    ],
    30,
  )

/** A line over ground with this many points, above it and below it in turn. */
export function hilly(points: number): Plan {
  const ground = Array.from({ length: points }, (_, n) => ({
    at: n * 100,
    elevation: n % 2 === 0 ? 90 + (n % 7) : -80,
  }))
  return {
    rail: RAIL,
    tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: points * 100 }], ground }],
  }
}

/** Eight pegs around this many points, each with six distances and a rise. */
export function surveyed(points: number): Plan {
  const pegs = Array.from({ length: 8 }, (_, n) => {
    const angle = (n * Math.PI) / 4
    return { name: `peg ${n}`, x: 30_000 * Math.cos(angle), y: 30_000 * Math.sin(angle), elevation: n }
  })
  const names = Array.from({ length: points }, (_, n) => `point ${n}`)
  const at = (n: number) => ({ x: ((n * 7919) % 30_000) - 15_000, y: ((n * 104_729) % 30_000) - 15_000 })
  return {
    pegs,
    distances: names.flatMap((to, n) =>
      pegs.slice(n % 3, (n % 3) + 6).map(({ name: from, x, y }, k) => ({
        from,
        to,
        length: Math.hypot(x - at(n).x, y - at(n).y) + ((n * 5 + k * 3) % 13) - 6,
      })),
    ),
    levels: names.map((to, n) => ({ from: n === 0 ? 'peg 0' : `point ${n - 1}`, to, rise: (n % 9) - 4 })),
  }
}

/** A track with this many turnouts, and from the other leg of each a spur. */
export function manyTurnouts(turnouts: number): Plan {
  const names = Array.from({ length: turnouts }, (_, n) => `W${n + 1}`)
  return {
    rail: RAIL,
    turnoutTypes: ['left', 'right'].map((hand) => ({ id: hand, hand, number: 6 })),
    cars: [{ name: 'car', length: 480, truckCentres: 330, width: 115 }],
    tracks: [
      {
        name: 'main',
        elements: names.flatMap((name, n) => [
          { kind: 'tangent', length: 900 + (n % 11) * 10 },
          { kind: 'turnout', name, type: n % 2 === 0 ? 'left' : 'right', enters: 'points' },
        ]),
      },
      ...names.map((turnout) => ({
        name: `spur ${turnout}`,
        start: { from: { turnout, leg: 'diverging' } },
        elements: [{ kind: 'tangent', length: 400 }],
      })),
    ],
  }
}

/** Obstacles with many corners along a line. */
export function manyCorners(obstacles: number, corners: number): Plan {
  return straight(obstacles * 1_000, {
    cars: [{ name: 'car', length: 480, truckCentres: 330, width: 115 }],
    obstacles: Array.from({ length: obstacles }, (_, n) => ({
      name: `o${n}`,
      polygon: Array.from({ length: corners }, (_, corner) => {
        const [turn, reach] = [(2 * Math.PI * corner) / corners, 200 + (corner % 2) * 40]
        return {
          x: Math.round(n * 1_000 + reach * Math.cos(turn)),
          y: Math.round(350 + reach * Math.sin(turn)),
        }
      }),
    })),
  })
}

/** One curve of this length, of sticks as long as they may be. */
export const longCurve = (lengthMm: number): Plan => ({
  rail: RAIL,
  tracks: [{ name: 'main', elements: [{ kind: 'arc', radius: 30_000, length: lengthMm, turn: 'left' }] }],
  supplies: { sticks: [{ length: 20_000 }] },
})

/** Three trains of five entries that all stall on winding track: what each takes is looked for. */
export function hauled(elements: number): Plan {
  const cars = [
    { name: 'engine', length: 400, truckCentres: 250, width: 100, massKg: 6, engine: { drive: 'steam' } },
    { name: 'coach', length: 600, truckCentres: 400, width: 100, massKg: 2 },
    { name: 'van', length: 500, truckCentres: 300, width: 100, massKg: 1.5 },
  ]
  const behind = ['coach', 'van', { car: 'coach', count: 20 }, 'van', { car: 'coach', count: 20 }]
  const trains = ['one', 'two', 'three'].map((name) => ({ name, engine: 'engine', cars: behind }))
  return winding(elements, { cars, trains })
}

/** Forty pegs, all but two measured from others, beside so many elements. */
export function pegged(elements: number): Plan {
  const known = [
    { name: 'A', x: 0, y: 0 },
    { name: 'B', x: 9_000, y: 0 },
  ]
  const taped = Array.from({ length: 38 }, (_, n) => {
    const distances = { firstDistance: 7_000 + 13 * n, secondDistance: 6_000 + 7 * n }
    return { name: `peg ${n}`, first: 'A', second: 'B', side: 'left', ...distances }
  })
  return winding(elements, { pegs: [...known, ...taped] })
}
