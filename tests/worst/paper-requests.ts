import { crowdedLine } from '../network/crowded-line.ts'
import { posted, type WorstRequest } from './requests.ts'
import * as worst from './worst-plans.ts'

/** What is printed and drawn of the largest plans, and two of their revisions side by side. */

const printed = (name: string, asked: string, plan: () => unknown) =>
  posted(`${name}, printed`, `/v1/sheets?${asked}`, plan)
const drawn = (name: string, file: string, plan: () => unknown) =>
  posted(`${name}, drawn as ${file}`, `/v1/drawings/${file}`, plan)

export const PAPER_REQUESTS: readonly WorstRequest[] = [
  printed('bench cards of 5,000 radii', 'for=bench', () => worst.manyRadii(5_000, 2)),
  printed('bench cards of 5,000 elements', 'for=bench', () => worst.winding(5_000)),
  printed('bench cards of 1,000 radii, calibrated', 'for=bench', () => worst.calibrated(1_000)),
  printed('saw sheet of 9.9 km, 20 stick lengths', 'for=saw', () => worst.manyLengths(9_900_000)),
  printed('shop and garden sheets of 5,000 elements', 'for=shop,garden', () => worst.winding(5_000)),
  printed('garden sheet of 999 breaks', 'for=garden', () => worst.broken(999)),
  printed('all sheets of 5,000 ready-made elements', 'paper=letter', () => worst.readyMade(5_000)),
  printed('all sheets of 200 tracks', 'paper=letter', () => worst.manyTracks(200, 25)),
  printed('all sheets of 199 turnouts', 'paper=a4', () => worst.manyTurnouts(199)),
  printed('line sheet of 200 obstacles and 5,000 elements', 'for=line', crowdedLine),
  printed('line sheet of 250 obstacles of 200 corners', 'for=line', () => worst.manyCorners(250, 200)),
  printed('grade line of 2,000 points', 'for=line', () => worst.seesaw(0.5, 1_999, 100_000)),
  printed('template of a curve of 100 m', 'for=templates', () => worst.longCurve(100_000)),
  printed('template of the first curve of 5,000', 'for=templates', () => worst.winding(5_000)),
  printed('chord gauge of the first of 5,000 radii', 'for=templates&template=chord', () => worst.manyRadii(5_000, 2)),
  printed('template of one of 199 turnouts', 'for=templates&template=turnout', () => worst.manyTurnouts(199)),
  drawn('5,000 elements', 'plan.svg', () => worst.winding(5_000)),
  drawn('5,000 radii', 'plan.svg', () => worst.manyRadii(5_000, 2)),
  drawn('200 obstacles and 5,000 elements', 'plan.svg', crowdedLine),
  drawn('250 obstacles of 200 corners', 'plan.svg', () => worst.manyCorners(250, 200)),
  drawn('200 tracks', 'plan.svg', () => worst.manyTracks(200, 25)),
  drawn('199 turnouts', 'plan.dxf', () => worst.manyTurnouts(199)),
  drawn('9.9 km of straight', 'plan.dxf', () => worst.straight(9_900_000)),
  drawn('9.9 km of straight', 'plan.svg', () => worst.straight(9_900_000)),
  drawn('grade line of 2,000 points', 'profile.svg', () => worst.seesaw(0.5, 1_999, 100_000)),
  drawn('200 tracks', 'profile.svg', () => worst.manyTracks(200, 25)),
  {
    name: 'two revisions of 5,000 elements side by side',
    path: '/plans',
    prepare: async (url) => {
      const name = 'two revisions of 5,000 elements side by side'
      const headers = { 'Content-Type': 'application/json' }
      const body = (plan: unknown) => JSON.stringify({ name: 'large', plan })
      const sent = await fetch(`${url}/v1/projects`, { method: 'POST', headers, body: body(worst.winding(5_000)) })
      const { id } = (await sent.json()) as { id: string }
      await fetch(`${url}/v1/projects/${id}`, {
        method: 'PUT',
        headers: { ...headers, 'If-Match': sent.headers.get('etag')! },
        body: body(worst.winding(4_996)),
      })
      return { name, path: `/plans/${id}/compare?from=1&to=2` }
    },
  },
]
