import { describe, expect, test } from 'vitest'
import { answerSchema } from '../../src/api/answers/schema.ts'
import { ONE_TURNOUT } from '../../src/api/turnouts-answer.ts'
import { appWithoutStore, asking, problemIn } from './asking.ts'

const { ask } = asking(appWithoutStore())

async function turnoutOf(query: string) {
  const answer = await ask(`/v1/turnouts?${query}`)
  if (answer.status !== 200) throw new Error(answer.text)
  const body: unknown = JSON.parse(answer.text)
  expect(answerSchema(ONE_TURNOUT).parse(body)).toEqual(body)
  return body as Record<string, number>
}

async function refusalOf(query: string): Promise<string[]> {
  const answer = await ask(`/v1/turnouts?${query}`)
  expect(answer.status).toBe(400)
  return problemIn(answer).errors.map((error) => `${'parameter' in error ? error.parameter : ''} ${error.code}`)
}

describe('one turnout', () => {
  test('with number alone: lead 2gN, radius 2gN² (closed form)', async () => {
    const six = await turnoutOf('number=6')
    expect(six.leadMm).toBeCloseTo(540, 9)
    expect(six.closureRadiusMm).toBeCloseTo(3240, 8)
    expect(six.outerGaugeRadiusMm).toBeCloseTo(3262.5, 8)
    expect(six.frogAngleDeg).toBeCloseTo(9.527283, 6)
    expect(six).toMatchObject({ gaugeMm: 45, frogNumber: 6, numbering: 'half-cot', toeSpreadMm: 0, heelAngleDeg: 0 })
  })

  test('of standard gauge in feet and inches: the formulas of a split switch, worked out beside them', async () => {
    const query =
      'gauge=4ft8-1/2in&number=10&heelSpread=6-1/4in&heelAngle=1.7727777777777778&pointLength=16ft6in&toeLength=6ft5in'
    const ten = await turnoutOf(query)
    const [g, h, k, s, f] = [56.5, 6.25, 77, (1.7727777777777778 * Math.PI) / 180, 2 * Math.atan(1 / 20)]
    const r = (g - h - k * Math.sin(f)) / (Math.cos(s) - Math.cos(f))
    const straight = r * (Math.sin(f) - Math.sin(s)) + k * Math.cos(f) - k
    expect(ten.outerGaugeRadiusMm! / 25.4).toBeCloseTo(r, 7)
    expect(ten.closureRadiusMm! / 25.4).toBeCloseTo(r - g / 2, 7)
    expect(ten.curvedClosureMm! / 25.4).toBeCloseTo(r * (f - s), 8)
    expect(ten.straightClosureMm! / 25.4).toBeCloseTo(straight, 8)
    expect(ten.leadMm! / 25.4).toBeCloseTo(198 + straight + k, 8)
  })

  test('from No. 2 to No. 40, and from 9 mm to 2 m of gauge', async () => {
    for (const number of [2, 3.5, 20, 40])
      for (const gauge of ['9', '1435.1', '2m'])
        expect((await turnoutOf(`gauge=${gauge}&number=${number}`)).frogNumber).toBeCloseTo(number, 9)
  })

  test('by the angle of its frog, in any numbering', async () => {
    const { frogNumber } = await turnoutOf('frogAngle=14.25&numbering=cot')
    expect(frogNumber).toBeCloseTo(1 / Math.tan((14.25 * Math.PI) / 180), 10)
    expect((await turnoutOf(`number=${frogNumber}&numbering=cot`)).frogAngleDeg).toBeCloseTo(14.25, 10)
  })

  test('of the other forms', async () => {
    expect((await turnoutOf('form=curved-frog&radius=3240')).frogNumber).toBeCloseTo(6, 9)
    expect((await turnoutOf('form=curved-frog&radius=8ft&angle=22.5')).divergingAngleDeg).toBeCloseTo(22.5, 9)
    expect((await turnoutOf('hand=wye&number=4')).divergingAngleDeg).toBeCloseTo(14.25, 3)
    expect((await turnoutOf('form=both-curved&outerRadius=10ft&radius=8ft&angle=26')).closureRadiusMm).toBe(2438.4)
  })

  test('refuses with all faults at once', async () => {
    expect(await refusalOf('')).toEqual(['number missing'])
    expect(await refusalOf('number=6&frogAngle=9&heelSpread=5&gage=45')).toEqual([
      'gage unknown-parameter',
      'frogAngle contradictory',
    ])
    expect(await refusalOf('number=6&frogAngle=9&heelSpread=5')).toEqual([
      'frogAngle contradictory',
      'heelSpread missing',
    ])
    expect(await refusalOf('number=0&gauge=x&heelAngle=31')).toEqual([
      'gauge bad-length',
      'number out-of-range',
      'heelAngle out-of-range',
    ])
    expect(await refusalOf('number=6&angle=3')).toEqual(['angle contradictory'])
    expect(await refusalOf('form=curved-frog&number=6&angle=20')).toEqual(['angle contradictory'])
    expect(await refusalOf('form=curved-frog')).toEqual(['radius missing'])
    expect(await refusalOf('frogAngle=9.5&radius=5m')).toEqual(['radius contradictory'])
  })
})

describe('a turnout in a cell', () => {
  test('has the figures of the whole answer', async () => {
    const query = 'number=6&heelSpread=6.5&heelAngle=2.5&pointLength=150&toeLength=60'
    const { leadMm, closureRadiusMm } = await turnoutOf(query)
    expect(Number((await ask(`/v1/cell/turnout-lead?${query}`)).text)).toBeCloseTo(leadMm!, 9)
    expect(Number((await ask(`/v1/cell/turnout-radius?${query}&units=in`)).text)).toBeCloseTo(
      closureRadiusMm! / 25.4,
      9,
    )
  })

  test('says in the cell what is wrong', async () => {
    expect((await ask('/v1/cell/turnout-lead?heelSpread=6&errors=cell')).text).toMatch(
      /^ERR missing number: neither number nor frogAngle/,
    )
  })
})
