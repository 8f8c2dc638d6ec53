import { expect, test } from 'vitest'
import { cases } from '../cases.ts'
import { randomFrom } from '../random.ts'
import { randomNet, workedOut } from './nets.ts'

/*
 * Nets with slips of metres, where steps that leave out the curvature of the distances do not settle. At the least sum of
 * squares the residuals, each over the square of its error and along its tape, pull every point in no direction.
 */
test('with slips of metres the adjustment settles where nothing pulls any point', () => {
  const chance = randomFrom(777)
  let slips = 0
  for (let net = 0; net < cases(300); net++) {
    const sent = randomNet(chance, 2 + Math.floor(4 * chance()))
    for (const distance of sent.distances!)
      if (chance() < 0.15) {
        distance.length = Math.max(500, distance.length + 4000 * (chance() - 0.5))
        slips++
      }
    const answer = workedOut(sent)
    const place = new Map([...answer.pegs, ...answer.points].map((each) => [each.name, each]))
    for (const point of answer.points) {
      let [pullX, pullY, pullZ] = [0, 0, 0]
      for (const { kind, index, from, to, residualMm } of answer.readings) {
        if (from !== point.name && to !== point.name) continue
        const far = place.get(from === point.name ? to : from)!
        const sign = to === point.name ? 1 : -1
        if (kind !== 'distance') pullZ += (sign * residualMm!) / (4 * (kind === 'line' ? 5 : 1))
        else {
          const isSlope = sent.distances![index]!.slope === true
          const [dx, dy] = [point.xMm! - far.xMm!, point.yMm! - far.yMm!]
          const dz = isSlope ? point.elevationMm! - far.elevationMm! : 0
          const d = Math.hypot(dx, dy, dz)
          pullX += ((residualMm! / 100) * dx) / d
          pullY += ((residualMm! / 100) * dy) / d
          pullZ += ((residualMm! / 100) * dz) / d
        }
      }
      expect(Math.hypot(pullX, pullY, pullZ), `${point.name} of net ${net}`).toBeLessThan(1e-7)
    }
  }
  expect(slips).toBeGreaterThan(50)
})
