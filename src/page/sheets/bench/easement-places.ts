import { type Html, html } from '../../html.ts'
import { benchLength, depthLength, type LengthsIn, lengthText } from '../../show-length.ts'
import type { StationOfPiece } from './pieces-to-bend.ts'

/** At most so many places of an easement on a card; the table of the easement has all. */
const MOST_PLACES = 5

/** The places to mark along an easement and how far to bend at each: the depth of the bender, or the radius under load. */
export function easementPlaces(stations: readonly StationOfPiece[], lengthsIn: LengthsIn): Html | null {
  if (stations.length === 0) return null
  const every = Math.ceil((stations.length - 1) / (MOST_PLACES - 1)) || 1
  const told = stations.filter((_, index) => index % every === 0 || index === stations.length - 1)
  const inOne = lengthsIn === 'both' ? 'metric' : lengthsIn
  return html`<ul class="places">${told.map(
    (station) =>
      html`<li><span>${benchLength(station.markMm, inOne)}</span> <span>${settingText(station, inOne)}</span></li>`,
  )}</ul>`
}

/** What the settings of an easement are, for the heading of its places. */
export function easementSetting(stations: readonly StationOfPiece[]): string {
  if (stations.some(({ depthMm }) => depthMm !== null)) return 'depth'
  return stations.some(({ formingRadiusMm }) => formingRadiusMm !== null) ? 'radius under load' : 'final radius'
}

function settingText(
  { wantedRadiusMm, formingRadiusMm, depthMm, turns }: StationOfPiece,
  lengthsIn: Exclude<LengthsIn, 'both'>,
): Html {
  if (wantedRadiusMm === null) return html`straight`
  if (depthMm !== null)
    return html`${depthLength(depthMm, lengthsIn)}${turns !== null && ` · ${turns.toFixed(2)} turns`}`
  return html`R ${lengthText(formingRadiusMm ?? wantedRadiusMm, lengthsIn)}`
}
