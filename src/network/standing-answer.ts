import { type Answer, component, count, length, list, nullable, text } from '../plan/fields/answer.ts'
import type { Network } from './network.ts'
import { carsOn, trainsOn } from './standing.ts'
import type { StandingRoom, Stock } from './standing-room.ts'

const TRAIN_PAIR = component('TrainPair', 'Two trains that stand one behind the other.', {
  first: text(),
  second: text(),
})

export const STANDING = component(
  'Standing',
  'A stretch of a track between fouling points, on which cars stand clear of all turnouts and crossings.',
  {
    track: text({ title: 'Track' }),
    fromMm: length({ title: 'From' }),
    toMm: length({ says: 'Less than fromMm where it goes over the start of a closed track.', title: 'To' }),
    clearMm: length({ says: 'How long it is, mm; 0 on a track on which nothing stands clear.', title: 'Clear length' }),
    cars: nullable(
      count({
        says: 'How many of the longest car stand there, over their couplers; null where the plan has no cars and no longest car.',
        title: 'Longest cars',
      }),
    ),
    trains: list(text(), 'The trains of the plan that fit there.'),
    pairs: list(TRAIN_PAIR, 'Two different trains of the plan that fit there one behind the other.'),
  },
)

export const FOULING_POINT = component(
  'FoulingPoint',
  'The place on a leg of a turnout or crossing beyond which cars stand clear of cars on the other.',
  {
    name: text({ says: 'The turnout or crossing.', title: 'Turnout or crossing' }),
    track: text({ says: 'The track of the leg.', title: 'Track' }),
    atMm: length({
      says: 'Its station; on a leg of a turnout along which no track runs, that of the points.',
      title: 'At',
    }),
    xMm: length({ title: 'x' }),
    yMm: length({ title: 'y' }),
  },
)

export type StandingAnswer = Answer<typeof STANDING>
export type FoulingPointAnswer = Answer<typeof FOULING_POINT>

/** What of an estimate there is only with cars, or with a spacing of tracks. */
export interface StandingAnswers {
  readonly standing?: StandingAnswer[]
  readonly foulingPoints?: FoulingPointAnswer[]
}

export function standingAnswers({ tracks }: Network, room: StandingRoom, { trains, carMm }: Stock): StandingAnswers {
  return {
    standing: room.standing.map((each) => {
      const { one, two } = trainsOn(each, trains)
      return {
        track: tracks[each.track]!.name,
        fromMm: each.fromMm,
        toMm: each.toMm,
        clearMm: each.clearMm,
        cars: carMm === null ? null : carsOn(each, carMm),
        trains: one,
        pairs: two.map(([first, second]) => ({ first, second })),
      }
    }),
    foulingPoints: room.fouling.points.map(({ name, track, atMm, pose: { xMm, yMm } }) => ({
      name,
      track: tracks[track]!.name,
      atMm,
      xMm,
      yMm,
    })),
  }
}
