import { PULL_SLACK } from '../hauling/train.ts'
import { formatMm } from '../measure/length.ts'
import type { Finding } from './finding.ts'
import { unchecked } from './not-checked.ts'

/** A train at its hardest place, as the rules see it. */
export interface CheckedTrain {
  readonly name: string
  readonly isSteam: boolean
  readonly tractiveEffortN: number
  readonly holdingN: number
  readonly cars: number
  readonly takes: number | null
  /** False where there are more ways than were followed. */
  readonly isComplete: boolean
  readonly climbing: CheckedPlace
  /** The least pull, below zero where the train pushes. */
  readonly descending: CheckedPlace
}

export interface CheckedPlace {
  readonly track: string
  readonly element: number
  /** Station of the front of the train. */
  readonly atMm: number
  readonly pullN: number
  /** As a share of the weight of the train. */
  readonly grade: number
  readonly curve: number
  /** Other tracks it stands on, from its front back. */
  readonly behind: readonly string[]
}

/** A train that its engine does not take up the line, or does not hold on the way down, each at its hardest place. */
export function trainFindings(trains: readonly CheckedTrain[], weatherShare: number): Finding[] {
  return trains.flatMap((train) => [
    ...stall(train, weatherShare),
    ...runaway(train, weatherShare),
    ...notEveryWay(train),
  ])
}

/** Names a train of which something is said, but not enough to tell whether it climbs. */
export function trainsNotChecked(unknown: readonly { readonly name: string; readonly missing: string }[]): Finding[] {
  return unknown.map(({ name, missing }) =>
    unchecked(
      `What ${name} takes up the grades was not worked out: the plan does not say ${missing}.`,
      'Enter it with the cars.',
    ),
  )
}

function notEveryWay({ name, isComplete, climbing: { track } }: CheckedTrain): Finding[] {
  if (isComplete) return []
  const message = `There are more ways on which ${name} can stand than were looked at: its hardest place may be on another.`
  return [unchecked(message, 'Estimate a part of the line by itself.', track)]
}

function stall(train: CheckedTrain, weatherShare: number): Finding[] {
  const { name, isSteam, tractiveEffortN, cars, takes, climbing } = train
  const { track, element, atMm, pullN, grade, curve, behind } = climbing
  const limitN = weatherShare * tractiveEffortN
  if (pullN <= limitN * (1 + PULL_SLACK)) return []
  const tooHeavy = pullN > tractiveEffortN * (1 + PULL_SLACK)
  const place = `with its front at ${formatMm(atMm)}${rear(behind)}, on ${percent(grade)} and a curve resistance of ${percent(curve)}`
  const outcome = tooHeavy
    ? 'It cannot start there, and stalls on the way up.'
    : isSteam
      ? 'A steam engine pulls unevenly: it is likely to slip or stall there, and may not start again.'
      : 'It is likely to slip there when the rail is damp.'
  return [
    {
      rule: 'train-stalls',
      severity: tooHeavy || isSteam ? 'warn' : 'note',
      track,
      element,
      message: `${name} asks for ${newtons(pullN)} ${place}; its engine pulls ${newtons(tractiveEffortN)} on dry rail, of which ${newtons(limitN)} are counted on. ${outcome}`,
      measured: pullN,
      limit: limitN,
      unit: 'N',
      cure: `${takes !== null && takes > 0 && takes < cars ? `Take ${takes} of its ${cars} cars, make` : 'Make'} the grade less steep or the curve wider, or put more weight on the driven wheels.`,
    },
  ]
}

function runaway({ name, holdingN, descending }: CheckedTrain, weatherShare: number): Finding[] {
  const { track, element, atMm, pullN, behind } = descending
  const limitN = weatherShare * holdingN
  if (-pullN <= limitN * (1 + PULL_SLACK)) return []
  return [
    {
      rule: 'train-runs-away',
      severity: 'warn',
      track,
      element,
      message: `${name} pushes downhill with ${newtons(-pullN)} where its front is at ${formatMm(atMm)}${rear(behind)}; the driven wheels of its engine hold ${newtons(limitN)} before they slide on damp rail.`,
      measured: -pullN,
      limit: limitN,
      unit: 'N',
      cure: 'Take fewer cars, make the grade less steep, or brake the cars as well.',
    },
  ]
}

/** Where a train stands but on the track of its front. */
function rear(behind: readonly string[]): string {
  return behind.length === 0 ? '' : ` and its rear on ${behind.join(', ')}`
}

function newtons(value: number): string {
  return `${Number(value.toPrecision(3))} N`
}

function percent(share: number): string {
  return `${(100 * share).toFixed(2)} %`
}
