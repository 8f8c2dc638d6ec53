import type { Estimate, HaulAnswer, TrackAnswer, TrainAnswer } from '../../estimate/answer.ts'
import { TRACK } from '../../estimate/track/answer.ts'
import type { EffectiveStretch } from '../../estimate/trains/answer.ts'
import { EFFECTIVE_STRETCH, HAUL, TRAIN_ANSWER } from '../../estimate/trains/answer.ts'
import { columnsOf } from '../columns.ts'
import type { ColumnOf } from '../table.ts'

interface OnTrack {
  readonly train: TrainAnswer
  readonly haul: HaulAnswer
}

const ofTrain = columnsOf(TRAIN_ANSWER, ({ train }: OnTrack) => train)
const ofHaul = columnsOf(HAUL, ({ haul }: OnTrack) => haul)

export const TRAIN_COLUMNS: readonly ColumnOf<OnTrack>[] = [
  ...ofTrain({ of: 'name', key: 'train' }, 'drive', 'massKg', 'lengthMm', 'cars', 'tractiveEffortN'),
  ...ofHaul('track', 'direction', 'atMm', 'gradePct', 'curvePct', 'effectivePct', 'pullN', 'spareN', 'takes'),
]

/** Every train on every track; none where trains do not say what they weigh. */
export function trainRows({ trains = [] }: Estimate): OnTrack[] {
  return trains.flatMap((train) => train.onTracks.map((haul) => ({ train, haul })))
}

interface Stretch {
  readonly track: TrackAnswer
  readonly stretch: EffectiveStretch
}

const ofTrack = columnsOf(TRACK, ({ track }: Stretch) => track)
const ofStretch = columnsOf(EFFECTIVE_STRETCH, ({ stretch }: Stretch) => stretch)

export const EFFECTIVE_GRADE_COLUMNS: readonly ColumnOf<Stretch>[] = [
  ...ofTrack({ of: 'name', key: 'track' }),
  ...ofStretch('fromMm', 'toMm', 'gradePct', 'curvePct', 'effectivePct'),
]

/** Every stretch of one grade and one curve, where the plan says what a curve asks for. */
export function effectiveGradeRows({ tracks }: Estimate): Stretch[] {
  return tracks.flatMap((track) => (track.effectiveGrade?.stretches ?? []).map((stretch) => ({ track, stretch })))
}
