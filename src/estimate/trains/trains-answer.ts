import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { HaulAnswer, TrainAnswer } from './answer.ts'
import { haulsOfPlan, type PlaceOfTrain, type TrainHauls, tracksOf } from './hauls.ts'
import { isElectric, type TrainOfPlan } from './trains-of-plan.ts'

/** What of an estimate there is only where trains say what they weigh. */
export interface TrainAnswers {
  readonly trains?: TrainAnswer[]
}

export function trainAnswers(drawn: readonly LaidTrack[], plan: Plan): TrainAnswers {
  const { hauls } = haulsOfPlan(drawn, plan)
  return hauls.length === 0 ? {} : { trains: hauls.map((haul) => trainAnswer(haul, drawn)) }
}

function trainAnswer(
  { of, climbing, ruling, descending, takesOn, takes, takesWhenDry }: TrainHauls,
  drawn: readonly LaidTrack[],
): TrainAnswer {
  const { name, drive, massKg, lengthMm, cars, limitedBy, hauled } = of
  const places = climbing.map((place, index) => haulAnswer(place, of, takesOn[index]!, drawn))
  return {
    name,
    drive,
    massKg,
    lengthMm,
    cars,
    tractiveEffortN: hauled.tractiveEffortN,
    limitedBy,
    ruling: places[climbing.indexOf(ruling)]!,
    onTracks: places,
    takes,
    takesWhenDry,
    holding:
      descending.pullN < 0
        ? {
            track: descending.track.name,
            direction: descending.direction,
            atMm: descending.atMm,
            pushN: -descending.pullN,
          }
        : null,
    holdingLimitN: hauled.holdingN,
    power: powerDrawn(of, ruling),
  }
}

function haulAnswer(
  place: PlaceOfTrain,
  { hauled }: TrainOfPlan,
  takes: number | null,
  drawn: readonly LaidTrack[],
): HaulAnswer {
  const { track, direction, atMm, grade, curve, pullN, under } = place
  return {
    track: track.name,
    direction,
    atMm,
    gradePct: 100 * grade,
    curvePct: 100 * curve,
    effectivePct: 100 * (grade + curve),
    pullN,
    spareN: hauled.tractiveEffortN - pullN,
    takes,
    ...(under.some((each) => drawn[each.track] !== track) && { standsOn: tracksOf(under, drawn) }),
  }
}

/** P = F·v at the wheels, for the pull F, N, and the speed v, m/s; divided by the efficiency where it is drawn. */
function powerDrawn(
  { speedMPerS, drive, efficiency }: TrainOfPlan,
  { pullN }: Pick<PlaceOfTrain, 'pullN'>,
): TrainAnswer['power'] {
  if (speedMPerS === null) return null
  const atWheelsW = pullN * speedMPerS
  return { atWheelsW, drawnW: isElectric(drive) ? atWheelsW / efficiency : null }
}

/** What a train draws on its hardest place, W; of one that can be worked out (see `trainPowerFaults`). */
export function drawnByTrainW(train: string, drawn: readonly LaidTrack[], plan: Plan): number {
  const haul = haulsOfPlan(drawn, plan).hauls.find(({ of }) => of.name === train)
  // Without a track to run on it draws nothing.
  return haul ? powerDrawn(haul.of, haul.ruling)!.drawnW! : 0
}
