import { expect, test } from 'vitest'
import { papers } from '../../src/print/papers.ts'
import { spurPlan } from '../estimate/turnout-plans.ts'
import { worked } from '../page/worked.ts'

interface Feature {
  readonly type: string
  readonly geometry: { readonly type: string; readonly coordinates: never }
  readonly properties: Readonly<Record<string, unknown>>
}

async function read(plan: unknown) {
  const file = JSON.parse(await papers.drawing('plan.geojson', worked(plan)))
  const of = (is: string): Feature[] => file.features.filter(({ properties }: Feature) => properties.is === is)
  return { file, of }
}

const LOOP = {
  title: 'Loop',
  rail: { section: '250', material: 'brass' },
  tracks: [
    {
      name: 'main',
      start: { x: 1000, y: -2000 },
      elements: [
        { kind: 'tangent', length: 3000 },
        { kind: 'arc', radius: 2000, angle: 180, turn: 'left' },
      ],
    },
  ],
  obstacles: [
    {
      name: 'pond',
      polygon: [
        { x: 0, y: 9000 },
        { x: 0, y: 9500 },
        { x: 800, y: 9500 },
      ],
    },
    { name: 'post', circle: { x: 500, y: 12_000, radius: 50 } },
  ],
  cars: [{ name: 'car', length: 480, truckCentres: 330, width: 115 }],
}

test('is a collection of features in metres that says in which frame', async () => {
  const { file } = await read(LOOP)
  expect(file).toMatchObject({ type: 'FeatureCollection', name: 'Loop', frame: { unit: 'm', errorMm: 1 } })
  expect(file.frame.note).toContain('no longitude and latitude')
  // RFC 7946, 4: an alternative frame is not to be given by the old member.
  expect(file).not.toHaveProperty('crs')
  for (const each of file.features) expect([each.type, typeof each.geometry.type]).toEqual(['Feature', 'string'])
})

test('centre lines end where they should, and a curve keeps to its circle', async () => {
  const [straight, arc] = (await read(LOOP)).of('centre-line')
  expect(straight!.geometry.coordinates).toEqual([
    [1, -2],
    [4, -2],
  ])
  const points = arc!.geometry.coordinates as [number, number][]
  // closed form: the centre is 2 m to the left of (4, −2), and half a turn ends opposite
  for (const [x, y] of points) expect(Math.hypot(x - 4, y - 0)).toBeCloseTo(2, 5)
  expect(points.at(-1)).toEqual([4, 2])
  for (const [n, [x, y]] of points.slice(1).entries()) {
    const [a, b] = points[n]!
    expect(2 - Math.hypot((x + a) / 2 - 4, (y + b) / 2)).toBeLessThan(0.001)
  }
  expect(arc!.properties).toMatchObject({ track: 'main', element: 1, kind: 'arc', radiusMm: 2000 })
})

test('obstacles are closed rings, counter-clockwise as RFC 7946 wants them', async () => {
  const [pond, post] = (await read(LOOP)).of('obstacle')
  expect(pond!.geometry.coordinates).toEqual([
    [
      [0.8, 9.5],
      [0, 9.5],
      [0, 9],
      [0.8, 9.5],
    ],
  ])
  expect(post!.properties).toMatchObject({ name: 'post' })
})

test('has the joints of the estimate, and turnouts with their other legs', async () => {
  const plan = spurPlan()
  const { of } = await read(plan)
  const { joints } = worked(plan).estimate
  expect(of('joint').map(({ properties }) => properties.stationMm)).toEqual(joints.map(({ stationMm }) => stationMm))
  expect(of('points').map(({ properties }) => properties.turnout)).toEqual(['W1'])
  expect(of('other-leg')[0]!.geometry.type).toBe('LineString')
})
