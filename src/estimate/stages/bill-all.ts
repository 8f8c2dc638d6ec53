import { type Bill, billOf } from '../../laying/bill.ts'
import type { Finding, PowerAnswer, RoadbedAnswer } from '../answer.ts'
import { bridgeNeeds } from '../bill/bridges.ts'
import { extraNeeds } from '../bill/needs.ts'
import { powerOf } from '../bill/power.ts'
import { roadbedOf } from '../bill/roadbed.ts'
import type { LaidOut } from '../cutting/lay-out.ts'
import { blocksOf } from '../track/blocks.ts'
import { drawnByTrainW } from '../trains/trains-answer.ts'
import type { Laid } from './lay-tracks.ts'

/** What is to be bought, and what of it is worked out beside the rails. */
export interface Billed {
  readonly bill: Bill
  readonly roadbed: RoadbedAnswer | null
  readonly power: PowerAnswer | null
  /** What is wrong with the current in the rails. */
  readonly powerFindings: readonly Finding[]
}

/** Adds bridges, ballast, wire and the plan's own extras to what the rails take, and prices it all. */
export function billAll({ plan, drawn, site }: Laid, { lines, needs, ofTrack }: LaidOut): Billed {
  const roadbed = roadbedOf(plan.roadbed, needs)
  const blocks = site.laid.flatMap((track, index) => blocksOf(track, ofTrack[index]!))
  const frogs = needs.map(({ name, liveFrogs }) => ({ track: name, turnouts: liveFrogs.turnouts }))
  const power = powerOf(
    plan,
    blocks,
    (train) => drawnByTrainW(train, drawn, plan),
    frogs.filter(({ turnouts }) => turnouts.length > 0),
  )
  const all = [
    ...lines,
    ...bridgeNeeds(drawn, plan),
    ...roadbed.needs,
    ...power.needs,
    ...extraNeeds(plan.extras, needs),
  ]
  return {
    bill: billOf(all, plan.supplies),
    roadbed: roadbed.answer,
    power: power.answer,
    powerFindings: power.findings,
  }
}
