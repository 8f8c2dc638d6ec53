import { randomFrom } from '../random.ts'

/** 5,000 elements of 20 winding tracks, 200 posts and rocks among them, and three kinds of car. */
export function crowdedLine() {
  const random = randomFrom(1)
  const cars = [
    { name: 'coach', length: 700, truckCentres: 480, width: 130 },
    { name: 'engine', length: 400, truckCentres: 200, width: 140 },
    { name: 'goods', length: 350, truckCentres: 220, width: 120 },
  ]
  const tracks = Array.from({ length: 20 }, (_, track) => ({
    name: `track ${track}`,
    start: { x: 0, y: 400 * track },
    elements: Array.from({ length: 50 }, (_, bend) => [
      { kind: 'tangent', length: 300 },
      { kind: 'easement', length: 300 },
      { kind: 'arc', radius: 2500 + 10 * bend, angle: 20, turn: bend % 2 === 1 ? 'left' : 'right' },
      { kind: 'easement', length: 300 },
      { kind: 'tangent', length: 400 },
    ]).flat(),
  }))
  const obstacles = Array.from({ length: 200 }, (_, index) => {
    const [x, y] = [60_000 * random(), 8000 * random()]
    if (index % 2 === 1) return { name: `post ${index}`, circle: { x, y, radius: 2.5 } }
    const turns = Array.from({ length: 12 }, (_, corner) => (corner * Math.PI) / 6)
    const polygon = turns.map((turn) => ({ x: x + 100 * Math.cos(turn), y: y + 100 * Math.sin(turn) }))
    return { name: `rock ${index}`, polygon }
  })
  return { rail: { section: '250', material: 'brass' }, cars, obstacles, tracks }
}
