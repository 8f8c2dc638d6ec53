import { describe, expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readSurvey } from '../../src/estimate/questions/read-survey.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { parseLength } from '../../src/measure/length.ts'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'
import { workOutSurvey } from '../../src/survey/survey.ts'

/* The demo plan from a survey with a tape to its pegs and back: what is measured in the garden is what is drawn. */

/** Two pegs below the line. */
const PEGS = [
  { name: 'gate', x: 0, y: -3000 },
  { name: 'well', x: 9000, y: -3000 },
] as const

interface Place {
  readonly name: string
  readonly xMm: number
  readonly yMm: number
}

function estimated(plan: unknown) {
  const read = readPlan(plan)
  const result = read.ok ? estimate(read.plan, { sent: plan }) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate
}

function surveyed(survey: unknown): Place[] {
  const read = readSurvey(survey)
  const result = read.ok ? workOutSurvey(read.input) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.answer.points.map(({ name, xMm, yMm }) => ({ name, xMm: xMm!, yMm: yMm! }))
}

/** What a tape reads from both pegs, and on which side of them the place is. */
function taped(places: readonly Place[]) {
  return {
    pegs: PEGS,
    distances: places.flatMap(({ name, xMm, yMm }) =>
      PEGS.map((peg) => ({ from: name, to: peg.name, length: Math.hypot(xMm - peg.x, yMm - peg.y) })),
    ),
    points: places.map(({ name, yMm }) => ({ name, side: yMm > -3000 ? 'left' : 'right' })),
  }
}

const mm = (text: string): number => {
  const read = parseLength(text)
  if (!read.ok) throw new Error(read.reason)
  return read.mm
}

/** The corners of the pond and the rock, and the middle of the tree. */
const cornersOf = ({ polygon, circle }: (typeof DEMO_PLAN.obstacles)[number]) => polygon ?? [circle]
const CORNERS: Place[] = DEMO_PLAN.obstacles.flatMap((obstacle) =>
  cornersOf(obstacle).map(({ x, y }, at) => ({ name: `${obstacle.name} ${at}`, xMm: mm(x), yMm: mm(y) })),
)

describe('the demo plan surveyed with a tape', () => {
  const measured = surveyed(taped(CORNERS))
  const pointOf = (name: string) => {
    const { xMm, yMm } = measured.find((each) => each.name === name)!
    return { x: xMm, y: yMm }
  }
  const obstacles = DEMO_PLAN.obstacles.map(({ name, polygon, circle }) =>
    polygon
      ? { name, polygon: polygon.map((_, at) => pointOf(`${name} ${at}`)) }
      : { name, circle: { ...circle, ...pointOf(`${name} 0`) } },
  )
  const plan = { ...DEMO_PLAN, obstacles, pegs: PEGS }
  const { findings, bill, pegOuts, tracks } = estimated(plan)

  it('has its pond, rock and tree where they are drawn, and the same findings and bill', () => {
    for (const [at, { xMm, yMm }] of CORNERS.entries()) {
      expect(measured[at]!.xMm).toBeCloseTo(xMm, 6)
      expect(measured[at]!.yMm).toBeCloseTo(yMm, 6)
    }
    const drawn = estimated(DEMO_PLAN)
    expect(findings.map(({ rule, track, element }) => [rule, track, element])).toEqual(
      drawn.findings.map(({ rule, track, element }) => [rule, track, element]),
    )
    expect(bill).toEqual(drawn.bill)
  })

  it('has every element marked from its pegs, and the tape finds each where it is drawn', () => {
    const places = pegOuts!.flatMap((place, at) =>
      place.pegOut ? [{ ...place, out: place.pegOut, name: `p${at}` }] : [],
    )
    const starts = tracks.flatMap(({ elements }) => elements)
    expect(places.length).toBeGreaterThan(starts.length)
    const again = surveyed({
      pegs: PEGS,
      distances: places.flatMap(({ name, out: { first, second } }) =>
        [first, second].map(({ peg, levelMm }) => ({ from: name, to: peg, length: levelMm })),
      ),
      points: places.map(({ name, out }) => ({ name, side: out.first.peg === 'gate' ? out.side : OTHER[out.side] })),
    })
    for (const [at, { xMm, yMm }] of places.entries())
      expect(Math.hypot(again[at]!.xMm - xMm, again[at]!.yMm - yMm)).toBeLessThan(1e-6)
  })
})

const OTHER = { left: 'right', right: 'left' } as const
