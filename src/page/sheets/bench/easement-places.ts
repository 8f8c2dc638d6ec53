import type { Bend } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { depthLength, type LengthsIn, lengthText, turnsFigure } from '../../show-length.ts'
import type { StationOfPiece } from './pieces-to-bend.ts'

/** The places to mark along an easement and how far to bend at each: the depth of the bender, or the radius under load. */
export function easementPlaces(
  stations: readonly StationOfPiece[],
  leadsTo: Bend | null,
  lengthsIn: LengthsIn,
  mark: (onPieceMm: number, lengthsIn: Exclude<LengthsIn, 'both'>) => Html,
): Html | null {
  if (stations.length === 0) return null
  const inOne = lengthsIn === 'both' ? 'metric' : lengthsIn
  const isDepth = easementSetting(stations) === 'depth'
  return html`<ul class="places">${stations.map(
    (station) =>
      html`<li><span>${mark(station.onPieceMm, inOne)}</span> <span>${
        station.wantedRadiusMm === null ? straight(isDepth, leadsTo, inOne) : settingText(station, inOne)
      }</span></li>`,
  )}</ul>`
}

/** Where rail is straight, from which depth or radius on it keeps a bend: from there the bend grows evenly to the next mark. */
function straight(isDepth: boolean, leadsTo: Bend | null, lengthsIn: Exclude<LengthsIn, 'both'>): Html {
  const { machine = null, elasticLimitRadiusMm = null } = leadsTo?.forming ?? {}
  if (isDepth && machine) return html`straight, from ${depthLength(machine.elasticDepthMm, lengthsIn)}`
  if (isDepth || elasticLimitRadiusMm === null) return html`straight`
  return html`straight, from R ${lengthText(elasticLimitRadiusMm, lengthsIn)}`
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
  if (depthMm !== null)
    return html`${depthLength(depthMm, lengthsIn)}${turns !== null && ` · ${turnsFigure(turns)} turns`}`
  return html`R ${lengthText(formingRadiusMm ?? wantedRadiusMm!, lengthsIn)}`
}
