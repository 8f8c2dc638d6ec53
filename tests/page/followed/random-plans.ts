import { randomFrom } from '../../random.ts'

export interface RandomPlan {
  readonly units: 'metric' | 'feet'
  /** How the rail is to be bent. */
  readonly how: 'hand' | 'rolled' | 'pressed' | 'spring-in'
  readonly plan: object
}

const HOW = ['hand', 'rolled', 'pressed', 'spring-in'] as const

/**
 * A garden line out of straights, curves to both sides and easements, by its number: in turn bent by hand, rolled,
 * pressed and sprung in, in millimetres and in feet, with and without trim, weather and a grade.
 */
export function randomPlan(number: number): RandomPlan {
  const random = randomFrom(1000 + 7919 * number)
  for (let n = 0; n < 5; n++) random()
  const between = (low: number, high: number) => low + random() * (high - low)
  const oneOf = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!
  const how = HOW[number % HOW.length]!
  const units = Math.floor(number / HOW.length) % 2 === 0 ? 'metric' : 'feet'
  const isTrimmed = random() < 0.5

  // Soft rail is bent by hand; what springs in is gentle enough for it.
  const rail = {
    section: oneOf(['250', '332']),
    material: 'brass',
    temper: how === 'hand' ? 'annealed' : oneOf(['half-hard', 'free-cutting-half-hard']),
  }
  const radius = () =>
    how === 'spring-in' ? between(2600, 5000) : how === 'hand' ? between(1200, 1700) : between(900, 2500)
  const elements: object[] = [{ kind: 'tangent', length: between(300, 2500) }]
  let turn = oneOf(['left', 'right'])
  for (let curve = 0; curve < 3; curve++) {
    const withEasements = random() < 0.6
    if (withEasements) elements.push({ kind: 'easement', length: between(300, 900) })
    elements.push({ kind: 'arc', radius: radius(), angle: between(20, 100), turn })
    if (withEasements) elements.push({ kind: 'easement', length: between(300, 900) })
    elements.push({ kind: 'tangent', length: between(250, 1800) })
    if (random() < 0.7) turn = turn === 'left' ? 'right' : 'left'
  }
  const limits = how === 'spring-in' ? {} : how === 'hand' ? { setShare: 0 } : { setShare: 0, tieForceN: 1 }
  const rollers = {
    span: between(100, 160),
    outerRollerRadius: between(8, 16),
    bearsOn: oneOf(['web', 'head', 'foot']),
    mode: how === 'pressed' ? 'pressed' : 'rolled',
    ...(random() < 0.7 ? { maxPerPass: between(0.5, 1.5) } : {}),
    ...(random() < 0.5 ? { screwPitch: 1.25 } : {}),
    ends: isTrimmed ? 'trim' : 'finish-by-hand',
  }
  return {
    units,
    how,
    plan: {
      rail,
      tracks: [
        {
          name: 'line',
          elements,
          ...(random() < 0.3
            ? {
                gradeLine: [
                  { at: 0, elevation: 0 },
                  { at: 6000, elevation: 100 },
                ],
              }
            : {}),
        },
      ],
      supplies: {
        sticks: units === 'metric' ? [{ length: 1500 }, { length: 1000 }] : [{ length: '6 ft' }, { length: '5 ft' }],
        kerf: between(0.6, 1.6),
        cutting: oneOf(['whole-sticks', 'even-pieces']),
      },
      ...(random() < 0.5 ? { climate: { coldest: -10, hottest: 45, laying: between(5, 25) } } : {}),
      bender: how === 'hand' ? { limits } : { ...rollers, limits },
    },
  }
}
