import type { TrackAnswer } from '../../../estimate/answer.ts'
import { specialTrackIn } from '../../drawing/plan-to-draw.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, type LengthsIn } from '../../show-length.ts'
import { elementNumber } from '../../words.ts'
import { bridgesOf } from '../bridge-table.ts'
import { careCard } from '../care.ts'
import { part } from '../part.ts'
import { layingOrder } from '../saw/ready-made.ts'
import type { SheetContext } from '../sheet.ts'
import { powerTables, roadbedTables } from './bed-and-power.ts'
import { earthworkTables } from './earthworks.ts'
import { fromPegs } from './from-pegs.ts'
import { jointTables } from './joint-tables.ts'
import { levelTable } from './levels.ts'
import { pegTable } from './pegs.ts'
import { tieLevelTables } from './tie-levels.ts'
import { turnoutTables } from './turnouts.ts'

/** Where everything goes in the garden: pegs, heights and ties, joints and their gaps, the bed, the feeders. */
export function gardenSheet(context: SheetContext): Html {
  const { worked, lengthsIn } = context
  const { tracks, roadbed, power, readyMade, cautions } = worked.estimate
  const order = readyMade && layingOrder(worked.estimate, readyMade, lengthsIn)
  const several = tracks.length > 1
  const special = specialTrackIn(worked.plan)
  const turnouts = turnoutTables(worked.estimate, special, lengthsIn)
  const tapes = fromPegs(worked.estimate, (element, track) => elementNumber(element, track, several), lengthsIn)
  const ties = tieLevelTables(worked.estimate, lengthsIn)
  const earthworks = earthworkTables(tracks, lengthsIn)
  const ofTracks = tracks.map(
    (track, index) =>
      track.state === 'new' &&
      html`<div>${several && html`<h3>${track.name}</h3>`}${pegTable(track, worked.plan.tracks[index]!.closed ?? false, (element) => elementNumber(element, index, several), lengthsIn, special)}${levelTable(track, lengthsIn)}${tiesLine(track, lengthsIn)}${bridgesOf(track.name, worked.estimate, lengthsIn)}</div>`,
  )
  return html`${part('pegs-and-ties', 'Pegs and ties', html`<p class="hint">Pegs on the centre line; ties from centre to centre. x is to the right and y up the sheet; the heading is counter-clockwise from x.</p><div class="by-track">${ofTracks}</div>`)}
${tapes && part('from-pegs', 'From the pegs', tapes)}
${ties && part('tie-levels', 'Level of every tie', ties)}
${earthworks && part('earthworks', 'Cut and fill', earthworks)}
${turnouts && part('turnouts', 'Turnouts', turnouts)}
${part('gaps', 'Joints and gaps', jointTables(context))}
${order && part('ready-made', 'Ready-made track', order)}
${
  (roadbed || power) &&
  part('ballast-power', bedAndPower(roadbed !== null, power !== null), [
    ...(roadbed ? [roadbedTables(roadbed, lengthsIn)] : []),
    ...(power ? [powerTables(power, roadbed !== null, lengthsIn)] : []),
  ])
}
${careCard('garden', cautions)}`
}

function bedAndPower(bed: boolean, power: boolean): string {
  if (!bed) return 'Track power'
  return power ? 'Ballast and power' : 'Ballast'
}

function tiesLine({ ties, tieSpacingMm, jointTies }: TrackAnswer, lengthsIn: LengthsIn): Html {
  const more = jointTies > 0 && `, and ${jointTies} more beside joints`
  return html` <p class="on-line">Ties: <b>${ties}</b>, ${benchLength(tieSpacingMm, lengthsIn)} apart${more}.</p>`
}
