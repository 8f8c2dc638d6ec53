import { describe, expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { appWithoutStore, asking, placesIn, planWith, problemIn, trackOf } from './asking.ts'

const { ask } = asking(appWithoutStore())
const post = (path: string, json: unknown) => ask(path, { method: 'POST', json })

const TRACK = trackOf({ kind: 'tangent', length: '20 ft' }, { kind: 'arc', radius: '9 ft', angle: 70, turn: 'left' })

/** Every price of a plan is so many smallest units of its currency. */
function planIn(currency: string, price: (units: number) => string) {
  return planWith({
    tracks: [TRACK],
    supplies: {
      currency,
      taxRatePct: 7.5,
      sticks: [
        { length: '6 ft', price: price(1725) },
        { length: '4 ft', price: price(1099), packSize: 2 },
      ],
      joiners: { pricePerPack: price(45) },
      ties: { pricePerPack: price(2100), packSize: 100 },
      fasteners: { pricePerPack: price(1250), packSize: 500 },
    },
    extras: [{ item: 'Buffer stop', per: 'each', quantity: 2, price: price(850) }],
  })
}

const IN = {
  USD: (units: number) => (units / 100).toFixed(2),
  JPY: (units: number) => String(units),
  KWD: (units: number) => (units / 1000).toFixed(3),
}
const PLACES = { USD: /^\d+\.\d{2}$/, JPY: /^\d+$/, KWD: /^\d+\.\d{3}$/ }

async function estimateIn(currency: keyof typeof IN): Promise<Estimate> {
  const answer = await post('/v1/estimates', planIn(currency, IN[currency]))
  if (answer.status !== 200) throw new Error(answer.text)
  return JSON.parse(answer.text)
}

function amountsOf({ bill, cutting }: Estimate): string[] {
  const { total, net, tax, gross, lines } = bill
  const ofLines = lines.flatMap(({ unitPrice, amount }) => [unitPrice, amount])
  return [...ofLines, total, net, tax, gross, cutting.cost, cutting.costLowerBound].filter((money) => money !== null)
}

describe('a plan in another currency', () => {
  // Closed form: where each price is as many smallest units, so is each amount, and the cut plan is the same.
  test.each(['JPY', 'KWD'] as const)('in %s costs as many of its smallest units', async (currency) => {
    const [usual, other] = await Promise.all([estimateIn('USD'), estimateIn(currency)])
    const units = (amounts: string[]) => amounts.map((money) => Number(money.replace('.', '')))
    expect(amountsOf(other).every((money) => PLACES[currency].test(money))).toBe(true)
    expect(amountsOf(usual).every((money) => PLACES.USD.test(money))).toBe(true)
    expect(units(amountsOf(other))).toEqual(units(amountsOf(usual)))
    expect(other.cutting.sticks).toEqual(usual.cutting.sticks)
    expect(Number(other.bill.total)).toBeGreaterThan(0)
  })

  test('has its places in the CSV', async () => {
    const { text } = await post('/v1/tables/bill.csv', planIn('KWD', IN.KWD))
    const [header, ...rows] = text.trim().split('\r\n')
    const column = header!.split(',').indexOf('unitPrice')
    // Descriptions may have commas in their quotes.
    const prices = rows.map((row) => row.replaceAll(/"[^"]*"/g, '').split(',')[column])
    expect(prices).toContain('1.099')
    expect(prices).toContain('2.100')
  })

  test('a price without the places of the currency is taken as it is', async () => {
    const json = planWith({ supplies: { currency: 'JPY', sticks: [{ length: '6 ft', price: '1450.00' }] } })
    const { bill } = JSON.parse((await post('/v1/estimates', json)).text) as Estimate
    expect(bill.lines[0]!.unitPrice).toBe('1450')
  })

  test('each price that is too fine is refused where it stands, beside other faults', async () => {
    const json = {
      ...planIn('JPY', IN.USD),
      gauge: 'wide',
    }
    const answer = await post('/v1/estimates', json)
    expect(placesIn(answer).toSorted()).toEqual(
      [
        '/extras/0/price',
        '/gauge',
        '/supplies/fasteners/pricePerPack',
        '/supplies/joiners/pricePerPack',
        '/supplies/sticks/0/price',
        '/supplies/sticks/1/price',
        '/supplies/ties/pricePerPack',
      ].filter((place) => !WHOLE_IN_USD.includes(place)),
    )
    expect(problemIn(answer).errors.find((error) => error.code === 'bad-price')?.hint).toContain('JPY has none')
  })

  test('a price that is too fine for dollars is refused, whatever else the plan has', async () => {
    const json = planWith({ supplies: { sticks: [{ length: '6 ft', price: '14.505' }] } })
    expect(placesIn(await post('/v1/estimates', json))).toEqual(['/supplies/sticks/0/price'])
  })

  test('a currency that cannot be read is the only fault of its prices', async () => {
    const json = planWith({ supplies: { currency: 'yen', sticks: [{ length: '6 ft', price: '14.505' }] } })
    expect(placesIn(await post('/v1/estimates', json))).toEqual(['/supplies/currency'])
  })
})

/** By hand: 21.00 is a whole number, which JPY can have. */
const WHOLE_IN_USD = ['/supplies/ties/pricePerPack']

describe('what else has prices', () => {
  test('a cut plan has the places of its currency (by hand: two sticks and a joiner)', async () => {
    const asked = { runs: [{ length: 2900 }], sticks: [{ length: 1500, price: '1.725' }], joinerPrice: '0.05' }
    const { cost, gap, currency } = JSON.parse((await post('/v1/cut-plans', { ...asked, currency: 'KWD' })).text)
    expect([cost, gap, currency]).toEqual(['3.500', '0.000', 'KWD'])
    expect(placesIn(await post('/v1/cut-plans', asked))).toEqual(['/sticks/0/price'])
    expect(placesIn(await post('/v1/cut-plans', { ...asked, currency: 'JPY' }))).toEqual([
      '/sticks/0/price',
      '/joinerPrice',
    ])
  })

  test.each([
    ['USD', '0.00'],
    ['JPY', '0'],
    ['KWD', '0.000'],
  ])('a cut plan in %s without a price of joiners says that they cost %s', async (currency, shown) => {
    const asked = { runs: [{ length: 2900 }], sticks: [{ length: 1500, price: '2' }], currency }
    const { assumptions } = JSON.parse((await post('/v1/cut-plans', asked)).text) as Estimate
    expect(assumptions).toContainEqual({
      field: '/joinerPrice',
      value: shown,
      reason: 'not given: joints cost nothing',
    })
  })

  test.each(['JPY', 'KWD'] as const)(
    'a plan in %s without a price of joiners says that it is unknown',
    async (currency) => {
      const plan = planIn(currency, IN[currency])
      const { supplies } = plan as unknown as { supplies: object }
      const { bill, assumptions } = JSON.parse(
        (await post('/v1/estimates', { ...plan, supplies: { ...supplies, joiners: {} } })).text,
      ) as Estimate
      const joiners = bill.lines.find(({ item }) => item === 'joiner')!
      expect([joiners.toBuy > 0, joiners.unitPrice, joiners.amount, bill.unpricedLines]).toEqual([true, null, null, 1])
      expect(assumptions.some(({ field, value }) => field.includes('joiners') && value === '0.00')).toBe(false)
    },
  )

  test('a comparison checks the prices of each material', async () => {
    const plan = planIn('JPY', IN.JPY)
    const materials = [{ material: 'stainless', sticks: [{ length: '6 ft', price: '14.50' }] }]
    expect(placesIn(await post('/v1/comparisons', { plan, materials }))).toEqual(['/materials/0/sticks/0/price'])
  })

  test('a track in rows has its currency beside it', async () => {
    const rows = (query: string) =>
      ask(`/v1/estimates?section=250&material=brass&stick=6ft&stickPrice=14.50${query}`, {
        method: 'POST',
        headers: { 'Content-Type': 'text/csv' },
        body: 'kind,length\ntangent,6000\n',
      })
    expect((await rows('')).status).toBe(200)
    expect(placesIn(await rows('&currency=JPY'))).toEqual(['stickPrice'])
  })
})
