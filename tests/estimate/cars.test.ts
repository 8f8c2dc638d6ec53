import { describe, expect, it } from 'vitest'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { asSent } from './turnout-plans.ts'
import { worked } from './worked.ts'

const COACH = { name: 'coach', length: 711, truckCentres: 500, width: 130 }
const ENGINE = { name: 'tank engine', length: '16 in', truckCentres: 200, width: 120, couplerLength: 0 }
const sent = (more: object = {}) => ({
  ...asSent(),
  cars: [COACH, ENGINE],
  tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: 3000 }] }],
  ...more,
})

function faultsOf(plan: object): string[] {
  const read = readPlan(plan)
  return read.ok ? [] : read.faults.map(({ path, code }) => `/${path.join('/')} ${code}`)
}

describe('cars of a plan', () => {
  it('give the longest car, which is an assumption, and the rules that follow from it', () => {
    const { assumptions } = worked(sent())
    const about = (field: string) => assumptions.filter((each) => each.field === `/standards/${field}`)
    expect(about('longestCar')).toMatchObject([{ value: '711 mm', reason: 'the longest of the cars, coach' }])
    expect(about('minimumRadius')).toMatchObject([{ value: '2133 mm' }])
    expect(about('minimumTangentBetweenReverseCurves')).toMatchObject([{ value: '711 mm' }])
    expect(about('maximumCouplerOffset')).toHaveLength(1)
    const given = worked(sent({ standards: { longestCar: 500 } })).assumptions
    expect(given.some(({ field }) => field === '/standards/longestCar')).toBe(false)
    expect(given.find(({ field }) => field === '/standards/minimumRadius')).toMatchObject({ value: '1500 mm' })
  })

  it('are not spoken of where there are none', () => {
    const plan = { ...sent(), cars: undefined }
    const text = JSON.stringify(worked(plan))
    for (const word of ['maximumCouplerOffset', 'trackSpacing', 'longestCar"', 'standing', 'fouling'])
      expect(text).not.toContain(word)
    expect(JSON.stringify(worked({ ...plan, cars: [], trains: [] }))).toBe(text)
  })

  it.each<[string, object, string[]]>([
    ['two of one name', { cars: [COACH, COACH] }, ['/cars/1/name duplicate-name']],
    ['trucks beyond the body', { cars: [{ ...COACH, truckCentres: 712 }] }, ['/cars/0/truckCentres contradictory']],
    ['trucks at its ends', { cars: [{ ...COACH, truckCentres: 711 }] }, []],
    ['no width', { cars: [{ ...COACH, width: 0 }] }, ['/cars/0/width out-of-range']],
    ['a misspelt field', { cars: [{ ...COACH, truckCenters: 5 }] }, ['/cars/0/truckCenters unknown-field']],
    [
      'trains of unknown cars',
      {
        trains: [
          { name: 'a', engine: 'tank engin', cars: ['coach', 'caboose', { car: 'tank', count: 2 }] },
          { name: 'a', engine: 'coach', cars: [{ car: 'coach', count: 0 }] },
        ],
      },
      [
        '/trains/1/cars/0/count out-of-range',
        '/trains/0/engine unknown-value',
        '/trains/0/cars/1 unknown-value',
        '/trains/0/cars/2/car unknown-value',
      ],
    ],
    [
      'two trains of one name',
      { trains: [1, 2].map(() => ({ name: 'a', engine: 'coach' })) },
      ['/trains/1/name duplicate-name'],
    ],
    ['trains without cars', { cars: [], trains: [{ name: 'a', engine: 'x' }] }, ['/trains/0/engine unknown-value']],
    [
      'a car that cannot be read may be the one that is meant',
      { cars: [{ ...COACH, name: 5 }], trains: [{ name: 'a', engine: 'x' }] },
      ['/cars/0/name wrong-type'],
    ],
  ])('%s', (_, more, faults) => expect(faultsOf(sent(more))).toEqual(faults))

  it('a misspelt engine is told which was meant', () => {
    const read = readPlan(sent({ trains: [{ name: 'a', engine: 'Tank engine' }] }))
    expect(!read.ok && read.faults).toMatchObject([{ hint: 'did you mean "tank engine"?' }])
  })

  it('by name or by number, a train is as long over its couplers as its cars and its engine', () => {
    const one = { name: 'a', engine: 'tank engine', cars: ['coach', 'coach', 'coach'] }
    const other = { name: 'b', engine: 'tank engine', cars: [{ car: 'coach' }, { car: 'coach', count: 2 }] }
    const lengthMm = 406.4 + 3 * 711
    const trainsOn = (length: number) =>
      worked(sent({ trains: [one, other], tracks: [{ name: 'm', elements: [{ kind: 'tangent', length }] }] })).standing
    expect(trainsOn(lengthMm)).toMatchObject([{ trains: ['a', 'b'], pairs: [] }])
    expect(trainsOn(lengthMm - 0.01)).toMatchObject([{ trains: [], pairs: [] }])
    expect(trainsOn(2 * lengthMm)).toMatchObject([{ trains: ['a', 'b'], pairs: [{ first: 'a', second: 'b' }] }])
  })
})
