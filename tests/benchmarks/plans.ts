/**
 * Plans as a client sends them, of any size: a hillside line that winds up and down.
 *
 * @param longerMm makes it another plan: some straights are longer by this, and a chord
 */
export function windingPlan(elements: number, longerMm = 0): Record<string, unknown> {
  const turn = (index: number) => (index % 12 < 6 ? 'left' : 'right')
  const kinds = [
    (i: number) => ({ kind: 'tangent', length: `${4 + (i % 5)} ft` }),
    () => ({ kind: 'easement', length: '2 ft' }),
    (i: number) => ({ kind: 'arc', diameter: `${16 + (i % 4)} ft`, angle: 20 + (i % 7) * 5, turn: turn(i) }),
    () => ({ kind: 'easement', length: '2 ft' }),
    (i: number) => ({ kind: 'tangent', length: 900 + i + longerMm }),
    (i: number) => ({ kind: 'arc', radius: 2600 + (i % 9) * 50, length: '6 ft 3 in', turn: turn(i) }),
  ]
  return {
    title: `Winding line of ${elements} elements`,
    rail: { section: '250', material: 'brass', temper: 'half-hard' },
    tracks: [
      {
        name: 'main',
        gradeLine: [
          { at: 0, elevation: 0 },
          { at: '12 ft', elevation: '2 in' },
        ],
        // The last is a straight: an easement there might have nothing to run to.
        elements: Array.from({ length: elements }, (_, i) => kinds[i === elements - 1 ? 0 : i % kinds.length]!(i)),
      },
    ],
    supplies: {
      sticks: [
        { length: '5 ft', price: '14.50', onHand: 4 },
        { length: '6 ft', price: '17.25' },
      ],
      joiners: { packSize: 10, pricePerPack: '9.00', onHand: 6 },
      ties: { spacing: '1-3/4 in', packSize: 100, pricePerPack: '21.00' },
      fasteners: { packSize: 500, pricePerPack: '12.00' },
    },
    standards: { longestCar: '28 in' },
    chords: [300, 500 + longerMm],
  }
}

/** The winding plan with ready-made pieces for its straights and all its curves. */
export function readyMadePlan(elements: number): Record<string, unknown> {
  const plan = windingPlan(elements)
  const panels = [
    { length: 400, price: '6.50' },
    { length: 600, price: '9.00' },
    ...[2438.4, 2743.2].map((radius) => ({ radius, angle: 15, price: '9.00' })),
    ...[2700, 2850, 3000].map((radius) => ({ radius, angle: 10, price: '6.00' })),
  ]
  return { ...plan, supplies: { ...(plan.supplies as object), panels } }
}

/** The winding plan with stricter standards and some straights where easements were. */
export function withFindings(elements: number): Record<string, unknown> {
  const plan = windingPlan(elements) as { tracks: { elements: Record<string, unknown>[] }[] }
  const harder = ({ elements: each, ...track }: (typeof plan.tracks)[number]) => ({
    ...track,
    elements: each.map((element, n) => (n % 6 === 1 ? { ...element, kind: 'tangent' } : element)),
  })
  const standards = { longestCar: '28 in', minimumRadius: 2700, maximumGradePct: 0.5 }
  return { ...plan, standards, tracks: plan.tracks.map(harder) }
}

/** Arcs alone, no two of the same radius. */
export function everyArcOfItsOwn(elements: number): Record<string, unknown> {
  const arcs = Array.from({ length: elements }, (_, n) => ({
    kind: 'arc',
    radius: 2000 + n,
    length: 1200,
    turn: n % 2 === 0 ? 'left' : 'right',
  }))
  return { ...windingPlan(7), tracks: [{ name: 'main', elements: arcs }] }
}
