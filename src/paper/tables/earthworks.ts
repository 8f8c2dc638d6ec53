import type { EarthStretch, Estimate, TrackAnswer } from '../../estimate/answer.ts'
import { EARTH_STRETCH } from '../../estimate/earthworks/answer.ts'
import { TRACK } from '../../estimate/track/answer.ts'
import { columnsOf } from '../columns.ts'
import type { ColumnOf } from '../table.ts'

interface Row {
  readonly track: TrackAnswer
  readonly stretch: EarthStretch
}

const ofTrack = columnsOf(TRACK, ({ track }: Row) => track)
const ofStretch = columnsOf(EARTH_STRETCH, ({ stretch }: Row) => stretch)

export const EARTHWORK_COLUMNS: readonly ColumnOf<Row>[] = [
  ...ofTrack({ of: 'name', key: 'track' }),
  ...ofStretch('kind', 'fromMm', 'toMm', 'volumeL', 'barrows', 'greatestMm', 'greatestAtMm', 'widestMm'),
]

/** Every cutting and embankment, in the order of the tracks. */
export function earthworkRows({ tracks }: Estimate): Row[] {
  return tracks.flatMap((track) => (track.earthworks?.stretches ?? []).map((stretch) => ({ track, stretch })))
}
