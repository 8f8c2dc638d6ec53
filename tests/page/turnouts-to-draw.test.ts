import { expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { planDrawing } from '../../src/page/drawing/plan-drawing.ts'
import { planToDraw } from '../../src/page/drawing/plan-to-draw.ts'
import { loopPlan } from '../estimate/turnout-plans.ts'

const read = readPlan(loopPlan())
if (!read.ok) throw new Error('the plan is refused')
const made = estimate(read.plan)
if (!made.ok) throw new Error('the plan cannot be estimated')
const drawn = planToDraw(read.plan, made.estimate)

it('a turnout is drawn as its track runs through it, with its other leg from the points', () => {
  const { elements } = made.estimate.tracks[0]!
  const [first, second] = drawn.tracks[0]!.turnouts!
  for (const [index, drawnTurnout] of [
    [1, first!],
    [3, second!],
  ] as const) {
    const { end, turnout } = elements[index]!
    const placed = drawn.tracks[0]!.placed[index]!
    expect([placed.end.xMm, placed.end.yMm]).toEqual([expect.closeTo(end.xMm, 8), expect.closeTo(end.yMm, 8)])
    const other = drawnTurnout.otherLeg.at(-1)!.end
    const { xMm, yMm } = turnout!.divergingEnd
    expect([other.xMm, other.yMm]).toEqual([expect.closeTo(xMm, 8), expect.closeTo(yMm, 8)])
    expect(drawnTurnout.frog).toEqual(turnout!.frog)
  }
})

it('each has a bar at its points and a mark at its frog', () => {
  const svg = String(planDrawing(drawn, [], 'both'))
  expect(svg.match(/class="points"/g)).toHaveLength(2)
  expect(svg.match(/class="frog"/g)).toHaveLength(2)
})
