import type { EasementForming, Estimate } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, depthLength, type LengthsIn, turnsFigure } from '../../show-length.ts'
import { elementNumber, spoken } from '../../words.ts'

type Stations = EasementForming['stations']

/** Easements that are bent in the same way, whatever their direction and turn. */
interface EasementGroup {
  readonly rails: readonly { readonly name: string; readonly stations: Stations }[]
  readonly from: string
  readonly numbers: string[]
}

/** Radii along the rails of the easements; null if there are none. */
export function easementTables(
  { easements, tracks }: Pick<Estimate, 'easements' | 'tracks'>,
  lengthsIn: LengthsIn,
): Html | null {
  if (easements.length === 0) return null
  const trackNumbers = new Map(tracks.map(({ name }, index) => [name, index] as const))
  const placeOf = ({ track, element }: EasementForming) => JSON.stringify([track, element])
  const rights = new Map(easements.filter(({ side }) => side === 'right').map((each) => [placeOf(each), each] as const))
  const groups = new Map<string, EasementGroup>()
  for (const left of easements) {
    if (left.side !== 'left') continue
    const right = rights.get(placeOf(left))
    if (!right) continue
    const track = trackNumbers.get(left.track) ?? 0
    const eased = fromFlatterEnd(left.stations, right.stations)
    const key = JSON.stringify([
      eased.from,
      eased.rails.map(({ name, stations }) => [name, stations.map(comparisonKey)]),
    ])
    const known = groups.get(key) ?? { ...eased, numbers: [] }
    known.numbers.push(elementNumber(left.element, track, tracks.length > 1))
    groups.set(key, known)
  }
  const withDepths = easements.some(({ stations }) => stations.some(({ depthMm }) => depthMm !== null))
  return html`<section class="easements"><h3>Easements</h3>
<p class="hint">The radius changes along an easement. Chalk the distances on the rail and bend from one mark to the next.${withDepths && ' The depths are those of the last pass: in each pass before, go no deeper at a mark than its depth, and no deeper than the pass.'}</p>
${[...groups.values()].map((eased) => easementTable(eased, lengthsIn))}</section>`
}

/**
 * From the flatter end to the tighter one, outer rail first, so that easements into and out of the same curve are the
 * same. An easement that changes from left to right has no outer rail and is shown in its own direction.
 */
function fromFlatterEnd(left: Stations, right: Stations): Omit<EasementGroup, 'numbers'> {
  const curvatures = left.map(({ wantedRadiusMm }) => (wantedRadiusMm === null ? 0 : 1 / wantedRadiusMm))
  const steps = curvatures.slice(1).map((curvature, index) => curvature - curvatures[index]!)
  const tightens = steps.every((step) => step >= 0)
  if (!tightens && steps.some((step) => step > 0))
    return {
      from: 'from its start',
      rails: [
        { name: 'Left rail', stations: left },
        { name: 'Right rail', stations: right },
      ],
    }
  const lengthOf = (stations: Stations) => stations.at(-1)!.atMm
  const [outer, inner] = lengthOf(left) > lengthOf(right) ? [left, right] : [right, left]
  const turned = (stations: Stations) =>
    tightens
      ? stations
      : stations.map((station) => ({ ...station, atMm: lengthOf(stations) - station.atMm })).toReversed()
  return {
    from: 'from the flatter end',
    rails: [
      { name: 'Outer rail', stations: turned(outer) },
      { name: 'Inner rail', stations: turned(inner) },
    ],
  }
}

/** The same at the bench: distances to the millimetre, radii to four digits. */
function comparisonKey({ atMm, wantedRadiusMm, formingRadiusMm, depthMm }: Stations[number]): unknown {
  return [atMm.toFixed(0), wantedRadiusMm?.toPrecision(4), formingRadiusMm?.toPrecision(4), depthMm?.toFixed(2)]
}

function easementTable({ rails, from, numbers }: EasementGroup, lengthsIn: LengthsIn): Html {
  const all = rails.flatMap(({ stations }) => stations)
  const known = all.some(({ formingRadiusMm }) => formingRadiusMm !== null)
  const columns = [
    known && { head: 'Bend to', of: (station: Stations[number]) => radius(station.formingRadiusMm) },
    all.some(({ depthMm }) => depthMm !== null) && {
      head: 'Depth',
      of: ({ depthMm }: Stations[number]) => (depthMm === null ? '–' : depthLength(depthMm, lengthsIn)),
    },
    all.some(({ turns }) => turns !== null) && {
      head: 'Turns',
      of: ({ turns }: Stations[number]) => (turns === null ? '–' : turnsFigure(turns)),
    },
  ].filter((column) => column !== false)
  const where = `${numbers.length === 1 ? 'Element' : 'Elements'} ${spoken(numbers)}`
  const radius = (mm: number | null) => (mm === null ? 'straight' : benchLength(mm, lengthsIn))
  const cells = (station: Stations[number]) =>
    html`<td>${benchLength(station.atMm, lengthsIn)}</td><td>${radius(station.wantedRadiusMm)}</td>${columns.map(({ of }) => html`<td>${of(station)}</td>`)}`
  return html`<div class="scroll" role="region" aria-label="Easement, ${where}" tabindex="0"><table class="figures eased">
<caption>${where} <span class="hint">${from}${!known && '; the forming radius is not known without a test bend'}</span></caption>
<thead><tr>${rails.map(({ name }) => html`<th scope="col">${name}, distance</th><th scope="col">Final radius</th>${columns.map(({ head }) => html`<th scope="col">${head}</th>`)}`)}</tr></thead>
<tbody>${rails[0]!.stations.map((_, index) => html`<tr>${rails.map(({ stations }) => cells(stations[index]!))}</tr>`)}</tbody></table></div>`
}
