import { parse } from 'papaparse'
import { describe, expect, test } from 'vitest'
import { answerSchema } from '../../src/api/answers/schema.ts'
import type { CurveAnswer } from '../../src/estimate/questions/one-curve.ts'
import { CURVE_ANSWER } from '../../src/estimate/questions/one-curve.ts'
import { appWithoutStore, asking, example, placesIn, planWith } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (path: string, json: unknown) => ask(path, { method: 'POST', json })

async function curveOf(json: unknown): Promise<CurveAnswer> {
  const answer = await post('/v1/bends', json)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(CURVE_ANSWER).parse(body)).toEqual(body)
  return body as CurveAnswer
}

describe('one curve with its rail and what bends it', () => {
  test('by hand: the same figures as the curve in a plan', async () => {
    const curve = await curveOf(example('bend-by-hand'))
    const plan = planWith({
      rail: { section: '250', material: 'brass', temper: 'half-hard' },
      chords: ['12 in', '24 in'],
      tracks: [{ name: 'main', elements: [{ kind: 'arc', diameter: '16 ft', angle: 60, turn: 'left' }] }],
    })
    const estimate = JSON.parse((await post('/v1/estimates', plan)).text) as { bends: CurveAnswer['rails'] }
    for (const [index, rail] of curve.rails.entries()) {
      const bend = estimate.bends[index]!
      expect(rail).toMatchObject({
        rail: bend.rail,
        radiusMm: bend.radiusMm,
        ordinates: bend.ordinates,
        recommendedChordMm: bend.recommendedChordMm,
      })
      expect(rail.forming.formingRadiusMm).toBe(bend.forming.formingRadiusMm)
    }
    expect(curve.assumptions.map(({ field }) => field)).toEqual(expect.arrayContaining(['/gauge', '/resolution']))
    expect(curve.cautions.length).toBeGreaterThan(3)
  })

  test('without a setting of the rollers, why there is none', async () => {
    const rollers = { span: 3000, outerRollerRadius: 12, bearsOn: 'foot', mode: 'rolled' }
    const why = async (body: object) => {
      const asked = { radius: 600, chords: [300], rail: { section: '250', material: 'brass', temper: 'half-hard' } }
      const { rails } = await curveOf({ ...asked, ...body })
      return rails.map(({ forming: { machine, noMachine } }) => [machine === null, noMachine])
    }
    const both = (reason: string | null, isNone = true) => [
      [isNone, reason],
      [isNone, reason],
    ]
    expect(await why({})).toEqual(both('no-rollers'))
    expect(await why({ bender: rollers })).toEqual(both('span-too-long'))
    expect(await why({ bender: rollers, rail: { section: '250', material: 'brass' } })).toEqual(both('yield-unknown'))
    expect(await why({ bender: { ...rollers, span: 100 } })).toEqual(both(null, false))
  })

  test('in rollers, calibrated: depth, turns, passes, and the yield the test bend told', async () => {
    const { rails, calibration } = await curveOf(example('bend-in-rollers'))
    expect(calibration).toMatchObject({ from: 'radii', benderLine: null })
    for (const { forming } of rails) {
      expect(forming).toMatchObject({ basis: 'calibrated', machine: { ends: 'trim', trimLengthMm: 100 } })
      expect(forming.machine!.turns).toBeCloseTo(forming.machine!.depthMm / 1.5, 9)
    }
  })

  test('every fault at once, each with its place', async () => {
    const answer = await post('/v1/bends', {
      radius: '8 ft',
      diameter: '16 ft',
      rail: {
        section: { rectangles: [] },
        material: { youngsModulusGpa: 110, yieldMpa: '345', hardening: { model: 'linaer' } },
      },
      bender: { span: -1, bearsOn: 'haed' },
      chrods: [300],
    })
    expect(answer.status).toBe(422)
    expect(placesIn(answer)).toEqual(
      expect.arrayContaining([
        '/radius',
        '/rail/section/rectangles',
        '/rail/material/yieldMpa',
        '/rail/material/hardening/model',
        '/bender/span',
        '/bender/bearsOn',
        '/chrods',
      ]),
    )
    expect(answer.text).toContain('did you mean \\"chords\\"')
    expect(answer.text).toContain('did you mean \\"head\\"')
  })

  test('what is wrong between the parts is told beside it: temper, radius, chord, bender', async () => {
    const rail = { section: '250', material: 'brass', temper: 'T6', calibration: [{ formedRadius: 'x' }] }
    const bender = { span: '1 lb', mode: 'rolled', bearsOn: 'foot', maxPerPass: 1 }
    expect(
      placesIn(await post('/v1/bends', { radius: 200, rail, bender, chords: [300, 'x', 500] })).toSorted(),
    ).toEqual([
      '/bender/outerRollerRadius',
      '/bender/span',
      '/chords/1',
      '/chords/2',
      '/rail/calibration/0/formedRadius',
      '/rail/calibration/0/restingRadius',
      '/rail/temper',
    ])
    expect(placesIn(await post('/v1/bends', { diameter: 40, rail: { ...rail, calibration: undefined } }))).toEqual([
      '/rail/temper',
      '/diameter',
    ])
    // A misspelt field may be any of a bender's; a pass is not judged by a bender that could not be read.
    const misspelt = {
      radius: 2000,
      rail: { section: '250', material: 'brass' },
      bender: { spam: 100, mode: 'rolled' },
    }
    expect(placesIn(await post('/v1/bends', misspelt))).toEqual(['/bender/spam'])
    const passes = { ...misspelt.rail, calibration: [{ turns: 3, chord: 500, ordinate: 10 }] }
    expect(placesIn(await post('/v1/bends', { ...misspelt, rail: passes }))).toEqual(['/bender/spam'])
  })

  test('faults between the parts: a chord over the diameter, a radius the inner rail has not, half a bender', async () => {
    const rail = { section: '250', material: 'brass' }
    expect(placesIn(await post('/v1/bends', { radius: 200, rail, chords: [100, 500] }))).toEqual(['/chords/1'])
    expect(placesIn(await post('/v1/bends', { diameter: 40, rail }))).toEqual(['/diameter'])
    expect(
      placesIn(await post('/v1/bends', { radius: 2000, rail, bender: { span: 100, mode: 'rolled', bearsOn: 'foot' } })),
    ).toEqual(['/bender/outerRollerRadius'])
    expect(placesIn(await post('/v1/bends', { radius: 2000, rail: { ...rail, temper: 'T6' } }))).toEqual([
      '/rail/temper',
    ])
  })
})

describe('the simple parameters', () => {
  const QUERY = 'diameter=16ft&section=250&material=stainless&temper=annealed&chord=300&chord=500'
  const BENDER =
    'benderSpan=100&benderOuterRollerRadius=0.5in&benderBearsOn=foot&benderMode=rolled&benderScrewPitch=1.5'

  test('with a material forming is told, with a bender its setting', async () => {
    const bends = JSON.parse((await ask(`/v1/bends?${QUERY}&${BENDER}`)).text) as CurveAnswer
    expect(bends.rails.map(({ forming }) => forming.basis)).toEqual(['annealed', 'annealed'])
    expect(bends.rails[0]!.forming.machine!.turns).toBeGreaterThan(0)
    const without = JSON.parse((await ask('/v1/bends?diameter=16ft')).text) as CurveAnswer
    expect(without.rails.every((rail) => !('forming' in rail))).toBe(true)
  })

  test('what is missing is named by its parameter', async () => {
    const places = async (query: string) => placesIn(await ask(`/v1/bends?${query}`))
    expect(await places(`diameter=16ft&${BENDER}`)).toEqual(['material'])
    expect(
      await places('diameter=16ft&section=250&material=brass&benderSpan=100&benderMode=rolled&benderBearsOn=foot'),
    ).toEqual(['benderOuterRollerRadius'])
    expect(await places('diameter=16ft&benderMod=rolled')).toEqual(['benderMod'])
    expect(await places(`${QUERY}&${BENDER}&benderTurnsPerInch=20`)).toEqual(['benderTurnsPerInch'])
  })

  test('as CSV: one row a rail and chord, every number equal to the JSON answer’s', async () => {
    const bends = JSON.parse((await ask(`/v1/bends?${QUERY}&${BENDER}`)).text) as CurveAnswer
    const answer = await ask(`/v1/bends.csv?${QUERY}&${BENDER}`)
    expect(answer.headers.get('content-type')).toBe('text/csv; charset=utf-8; header=present')
    const { data, errors } = parse<Record<string, string>>(answer.text, { header: true, skipEmptyLines: true })
    expect(errors).toEqual([])
    const rows = bends.rails.flatMap((rail) => rail.ordinates.map((chord) => ({ rail, chord })))
    expect(data).toHaveLength(rows.length)
    for (const [index, { rail, chord }] of rows.entries()) {
      const row = data[index]!
      expect(row.rail).toBe(rail.rail)
      expect(Number(row.midMm)).toBe(chord.midMm)
      expect(Number(row.formingRadiusMm)).toBe(rail.forming.formingRadiusMm)
      expect(Number(row.depthMm)).toBe(rail.forming.machine!.depthMm)
    }
  })
})

describe('test bends alone', () => {
  test('tell the yield with its band', async () => {
    const answer = await post('/v1/bend-calibrations', example('calibration-by-radii'))
    expect(answer.status).toBe(200)
    const { calibration, section, assumptions } = JSON.parse(answer.text) as CurveAnswer & {
      calibration: NonNullable<CurveAnswer['calibration']>
    }
    const curve = await curveOf({ ...(example('calibration-by-radii') as object), radius: 2400 })
    expect({ calibration, section }).toEqual({ calibration: curve.calibration, section: curve.section })
    expect(assumptions.map(({ field }) => field)).toEqual(['/rail/section', '/rail/temper', '/resolution'])
    expect(calibration.readings).toHaveLength(2)
    expect(calibration.lowMpa!).toBeLessThan(calibration.effectiveYieldMpa!)
    expect(calibration.highMpa!).toBeGreaterThan(calibration.effectiveYieldMpa!)
  })

  test('none, or impossible ones, are refused with their place', async () => {
    const rail = { section: '250', material: 'brass' }
    expect(placesIn(await post('/v1/bend-calibrations', { rail }))).toEqual(['/rail/calibration'])
    expect(placesIn(await post('/v1/bend-calibrations', { rail: { ...rail, calibration: [], temper: 'T6' } }))).toEqual(
      ['/rail/calibration', '/rail/temper'],
    )
    expect(placesIn(await post('/v1/bend-calibrations', { rail: { ...rail, calibraton: [] } }))).toEqual([
      '/rail/calibraton',
    ])
    const calibration = [
      { formedRadius: 500, restingRadius: 1400 },
      { formedRadius: 900, restingRadius: 800 },
    ]
    expect(placesIn(await post('/v1/bend-calibrations', { rail: { ...rail, calibration } }))).toEqual([
      '/rail/calibration/1/restingRadius',
    ])
    expect(
      placesIn(await post('/v1/bend-calibrations', { rail: { ...rail, calibration: [{ formedRadius: 'x' }] } })),
    ).toEqual(['/rail/calibration/0/formedRadius', '/rail/calibration/0/restingRadius'])
  })
})
