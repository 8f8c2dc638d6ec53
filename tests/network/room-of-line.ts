import { preparePlan } from '../../src/estimate/plan.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { layTrack } from '../../src/estimate/track/laid-track.ts'
import { placedObstacles, roomOfPlan } from '../../src/estimate/track/room-of-plan.ts'
import { tooClose } from '../../src/network/beside.ts'
import { touchedOn } from '../../src/network/touched.ts'

/** What the room of cars takes to work out, of a plan as it is sent: made ready once, worked out each time. */
export function roomOfLine(sent: object) {
  const read = readPlan(sent)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const { plan } = preparePlan(read.plan)
  const obstacles = placedObstacles(plan)
  const drawn = plan.tracks.map((track) => layTrack(track, plan))
  return () => {
    const { lines, railAt } = roomOfPlan([...drawn], plan)
    return {
      touched: touchedOn(lines, obstacles, railAt),
      close: tooClose(lines, { fouled: [], railAt, overMm: 250 }),
    }
  }
}
