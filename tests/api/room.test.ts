import { describe, expect, test } from 'vitest'
import { appWithoutStore, asking, placesIn } from './asking.ts'

const { ask } = asking(appWithoutStore())
const asked = async (path: string) => {
  const { status, text } = await ask(path)
  return { status, body: JSON.parse(text) }
}

describe('GET /v1/overhangs', () => {
  test('answers how far a car reaches', async () => {
    const { status, body } = await asked('/v1/overhangs?radius=1200&length=450&truckCentres=300&width=110')
    expect(status).toBe(200)
    // By hand; see tests/published/overhang.test.ts.
    expect(body).toMatchObject({
      radiusMm: 1200,
      insideMm: expect.closeTo(9.412, 3),
      outsideCornerMm: expect.closeTo(10.747, 3),
      insideReachMm: expect.closeTo(64.412, 3),
      outsideReachMm: expect.closeTo(65.747, 3),
    })
  })

  test('takes a diameter and units', async () => {
    const metric = await asked('/v1/overhangs?radius=1219.2&length=609.6&truckCentres=431.8&width=114.3')
    const feet = await asked('/v1/overhangs?diameter=8ft&length=24in&truckCentres=17in&width=4-1/2in')
    expect(feet.body).toEqual(metric.body)
  })

  test('tells all faults at once', async () => {
    expect(placesIn(await ask('/v1/overhangs?radius=0&length=long&truckCentres=300&gauge=45')).sort()).toEqual([
      'gauge',
      'length',
      'radius',
      'width',
    ])
    const both = await ask('/v1/overhangs?radius=200&diameter=400&length=300&truckCentres=500&width=110')
    expect(placesIn(both)).toEqual(['radius', 'truckCentres', 'truckCentres'])
    expect(placesIn(await ask('/v1/overhangs?length=300&truckCentres=200&width=110'))).toEqual(['radius'])
  })

  test('refuses a car whose trucks do not fit on the curve', async () => {
    const { status, body } = await asked('/v1/overhangs?radius=200&length=500&truckCentres=400&width=110')
    expect(status).toBe(400)
    expect(body.errors).toEqual([
      expect.objectContaining({ code: 'contradictory', detail: expect.stringContaining('200 mm radius') }),
    ])
  })
})

describe('GET /v1/vertical-curves', () => {
  const OF_CAR = 'gradeIn=2&gradeOut=-2&length=1m&carLength=600&truckCentres=400'

  test('says how long the curve has to be for a car', async () => {
    const { body } = await asked(
      `/v1/vertical-curves?${OF_CAR}&couplerLength=20&couplerHeightDifference=2&undersideHeight=2`,
    )
    // By hand: o = 120, b = 520, A·o = 4.8, L = 520·4.8/(2·2); the belly A·C/4 = 4, L = C.
    expect(body.shortest).toEqual([
      { reason: 'couplers', lengthMm: expect.closeTo(624, 9) },
      { reason: 'belly', lengthMm: expect.closeTo(400, 9) },
    ])
    expect((await asked('/v1/vertical-curves?gradeIn=2&gradeOut=-2&length=1m')).body).not.toHaveProperty('shortest')
  })

  test('refuses half a car, each part with its place', async () => {
    expect(placesIn(await ask(`/v1/vertical-curves?${OF_CAR}`))).toEqual(['couplerHeightDifference'])
    expect(
      placesIn(await ask('/v1/vertical-curves?gradeIn=2&gradeOut=-2&length=1m&couplerHeightDifference=2')).sort(),
    ).toEqual(['carLength', 'truckCentres'])
    expect(
      placesIn(
        await ask(
          '/v1/vertical-curves?gradeIn=2&gradeOut=1&length=1m&carLength=300&truckCentres=400&undersideHeight=3',
        ),
      ),
    ).toEqual(['truckCentres'])
  })

  test('answers the parabola with its points', async () => {
    const { status, body } = await asked(
      '/v1/vertical-curves?gradeIn=1.34&gradeOut=-1.77&length=500ft&elevation=1067.29ft',
    )
    expect(status).toBe(200)
    // Published: summit 2+15.43 at 1068.733 ft; see tests/published/vertical-curves.test.ts.
    expect(body.turning.atMm / 304.8).toBeCloseTo(215.43, 2)
    expect(body.turning.elevationMm / 304.8).toBeCloseTo(1068.733, 3)
    expect(body.points).toHaveLength(11)
    expect(body.points[2].atMm).toBeCloseTo(100 * 304.8, 9)
    expect(body.points[2].elevationMm / 304.8).toBeCloseTo(1068.32, 2)
    expect(body.points.at(-1)).toEqual({
      atMm: 152_400,
      elevationMm: expect.closeTo(1066.215 * 304.8, 9),
      gradePct: -1.77,
    })
  })

  test('answers stations that are asked for, counted as the track counts them', async () => {
    const { body } = await asked('/v1/vertical-curves?gradeIn=2&gradeOut=-1&length=1200&from=3000&at=3600&at=4200')
    // By hand: half-way 12 mm up the first grade, less e = 3 % × 1200/8.
    expect(body).toMatchObject({
      externalMm: 4.5,
      points: [
        { atMm: 3600, elevationMm: 7.5, gradePct: 0.5 },
        { atMm: 4200, elevationMm: 6, gradePct: -1 },
      ],
    })
  })

  test('reads a negative elevation', async () => {
    const { body } = await asked('/v1/vertical-curves?gradeIn=-2&gradeOut=-2&length=1m&elevation=-30&at=0')
    expect(body).toEqual({
      externalMm: 0,
      radiusMm: null,
      turning: null,
      points: [{ atMm: 0, elevationMm: -30, gradePct: -2 }],
    })
  })

  test('tells all faults at once', async () => {
    expect(placesIn(await ask('/v1/vertical-curves?gradeIn=steep&gradeOut=101')).sort()).toEqual([
      'gradeIn',
      'gradeOut',
      'length',
    ])
    const beyond = await ask('/v1/vertical-curves?gradeIn=1&gradeOut=2&length=1m&from=500&at=499&at=800&at=1501')
    expect(placesIn(beyond)).toEqual(['at', 'at'])
  })
})
