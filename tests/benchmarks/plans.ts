/** Plans as a client sends them, of any size: a hillside line that winds up and down. */
export function windingPlan(elements: number): Record<string, unknown> {
  const turn = (index: number) => (index % 12 < 6 ? 'left' : 'right')
  const kinds = [
    (i: number) => ({ kind: 'tangent', length: `${4 + (i % 5)} ft` }),
    () => ({ kind: 'easement', length: '2 ft' }),
    (i: number) => ({ kind: 'arc', diameter: `${16 + (i % 4)} ft`, angle: 20 + (i % 7) * 5, turn: turn(i) }),
    () => ({ kind: 'easement', length: '2 ft' }),
    (i: number) => ({ kind: 'tangent', length: 900 + i }),
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
    chords: [300, 500],
  }
}
