import { preparePlan } from '../../../src/estimate/plan.ts'
import type { WorkedPlan } from '../../../src/page/pages/worked-plan.ts'
import type { LengthsIn } from '../../../src/page/show-length.ts'
import { sheetOf } from '../all-sheets.ts'
import { DrawnRail } from './drawn-rail.ts'
import {
  type Card,
  type CardEasement,
  type ReadJoint,
  readBenchSheet,
  readGardenSheet,
  readSawSheet,
} from './read-sheets.ts'
import { SimulatedBench } from './simulated-bench.ts'

/** What became of a piece. */
export interface Followed {
  readonly mark: string
  /** How far its two ends lie from where they are drawn, along the rail, mm. */
  readonly startOffMm: number
  readonly endOffMm: number
  /** The furthest it lies beside the drawn rail, mm. */
  readonly besideMm: number
  /** By how much the check on the chord is off, mm; 0 where none is made. */
  readonly checkOffMm: number
}

/** A stretch of a piece with the curvature it was bent to, left positive, by place from the sawn end. */
interface Shaped {
  readonly fromMm: number
  readonly toMm: number
  /** Null: sprung in, so that the ties give it the curvature of the track. */
  readonly curvature: ((mm: number) => number) | null
}

/**
 * Builds the rails of a plan from what its sheets say, and measures them against the drawing.
 *
 * @param cut the same plan as it should be cut
 */
export function follow(worked: WorkedPlan, lengthsIn: Exclude<LengthsIn, 'both'>, cut = worked): Followed[] {
  const { plan } = preparePlan(worked.plan)
  const bench = new SimulatedBench(plan.section.properties, plan.metal.nominal, plan.bender.roller)
  const sawn = readSawSheet(sheetOf(worked, 'saw', lengthsIn))
  const { cards, straight } = readBenchSheet(sheetOf(worked, 'bench', lengthsIn))
  const joints = readGardenSheet(sheetOf(worked, 'garden', lengthsIn))
  const several = worked.plan.tracks.length > 1
  const offsetMm = (plan.gauge + plan.section.headWidthMm) / 2
  const stickMm = (printedMm: number) =>
    nearest(
      plan.supplies.sticks.map(({ length }) => length),
      printedMm,
    )

  let tables = 0
  return worked.plan.tracks.flatMap((track, index) =>
    (['left', 'right'] as const).flatMap((side) => {
      if (track.state === 'existing') return []
      const drawn = new DrawnRail(track, side, offsetMm, worked.plan.turnoutTypes)
      const prefix = `${several ? `${index + 1}-` : ''}${side === 'left' ? 'L' : 'R'}`
      const marks = [...sawn.keys()].filter((mark) => new RegExp(`^${prefix}\\d+$`).test(mark))
      const ofRail = joints.length > 0 ? joints[tables++]! : []
      const gapAfter = (name: string) =>
        ofRail.find(({ between }) => between[0] === name && between.length === 2)?.gapMm ?? 0
      const first = ofRail.find(({ between, alongMm }) => alongMm < 1 && between.at(-1) === `${prefix}1`)
      const closing = track.closed ? ofRail.find(({ between }) => between[1] === `${prefix}1`) : undefined
      // An end that meets other track leaves all of its gap to the piece; a closing joint half on each side.
      let atMm = closing ? closing.gapMm / 2 : first ? first.gapMm : 0
      const pieces = marks.sort((a, b) => numberOf(a) - numberOf(b))
      const own = new Set(drawn.turnouts.map(({ name }) => name))
      return inTheirOrder(pieces, ofRail, own).map((name) => {
        const turnout = drawn.turnouts.find((each) => each.name === name)
        if (turnout) {
          // It comes as long as its kind is: nobody saws it.
          const [fromMm, toMm] = [drawn.alongAt(turnout.fromMm), drawn.alongAt(turnout.toMm)]
          const startOffMm = atMm - fromMm
          atMm += toMm - fromMm
          const followed = { mark: `${name}, ${side}`, startOffMm, endOffMm: atMm - toMm, besideMm: 0, checkOffMm: 0 }
          atMm += gapAfter(name)
          return followed
        }
        const saw = sawn.get(name)!
        const sawnMm = saw.sawToMm ?? stickMm(saw.stickMm)
        const card = cards.get(name)
        if (!card && !straight.has(name)) throw new Error(`${name} is on no card`)
        const startMm = card?.trim?.startMm ?? 0
        const finishedMm = card?.trim ? card.trim.toMm : sawnMm
        const shaped = card ? shapesOf(card, sawnMm, bench) : []
        const besideMm = furthestBeside(drawn, atMm, startMm, finishedMm, shaped)
        const followed = {
          mark: name,
          startOffMm: atMm - drawnStart(cut, track.name, side, name),
          endOffMm: 0,
          besideMm,
          checkOffMm: card ? checkOff(card, bench, plan.section.headWidthMm) : 0,
        }
        const endMm = atMm + finishedMm
        atMm = endMm + gapAfter(name)
        return { ...followed, endOffMm: endMm - drawnEnd(cut, track.name, side, name) }
      })
    }),
  )
}

/** The pieces of a rail with the turnouts between them, as its joints are printed. */
function inTheirOrder(
  pieces: readonly string[],
  joints: readonly ReadJoint[],
  turnoutsOnIt: ReadonlySet<string>,
): string[] {
  const turnouts = joints.flatMap(({ between: [before, after] }) =>
    after && turnoutsOnIt.has(after) ? [[before!, after]] : [],
  )
  return pieces.flatMap((mark) => [mark, ...turnouts.filter(([before]) => before === mark).map(([, name]) => name!)])
}

const numberOf = (mark: string) => Number(/\d+$/.exec(mark)![0])

function nearest(lengths: readonly number[], mm: number): number {
  return lengths.reduce((best, each) => (Math.abs(each - mm) < Math.abs(best - mm) ? each : best))
}

function pieceOf({ estimate }: WorkedPlan, track: string, side: string, mark: string) {
  const along = estimate.cutting.sticks
    .flatMap(({ pieces }) => pieces)
    .filter((piece) => piece.track === track && piece.rail === side)
    .sort((a, b) => a.fromMm - b.fromMm)
  return along[numberOf(mark) - 1]!
}

/** Where the cut plan has the ends of a piece, not rounded. */
function drawnStart(worked: WorkedPlan, track: string, side: string, mark: string): number {
  return pieceOf(worked, track, side, mark).fromMm
}

function drawnEnd(worked: WorkedPlan, track: string, side: string, mark: string): number {
  const { fromMm, lengthMm } = pieceOf(worked, track, side, mark)
  return fromMm + lengthMm
}

function shapesOf({ bends }: Card, sawnMm: number, bench: SimulatedBench): Shaped[] {
  const shapes = bends.map((bend): Shaped => {
    const sign = bend.turn === 'left' ? 1 : -1
    if ('marksMm' in bend) {
      const [fromMm, toMm] = bend.marksMm ?? [0, sawnMm]
      if (bend.setting.by === 'spring-in') return { fromMm, toMm, curvature: null }
      const k = sign * bench.bent(bend.setting)
      return { fromMm, toMm, curvature: () => k }
    }
    // It has no marks: the ties hold whatever of the piece is not bent.
    if (bend.sprungIn) return { fromMm: 0, toMm: sawnMm, curvature: null }
    const { places } = bend
    const curvature = alongEasement(bend, bench)
    return { fromMm: places[0]!.markMm, toMm: places.at(-1)!.markMm, curvature: (mm) => sign * curvature(mm) }
  })
  const isHeld = ({ curvature }: Shaped) => curvature === null
  return [...shapes.filter((shape) => !isHeld(shape)), ...shapes.filter(isHeld)]
}

const PARTS = 2

/** Depth and curvature change evenly from one place to the next. */
function alongEasement({ places, isDepth, passesMm, pressMm }: CardEasement, bench: SimulatedBench) {
  const known: { mm: number; k: number }[] = []
  const bentTo = (setting: number) => {
    if (setting <= 0) return 0
    if (!isDepth) return bench.bent({ by: 'hand', loadedRadiusMm: setting })
    return bench.pressedOrRolled([...passesMm.filter((mm) => mm < setting - 1e-9), setting], pressMm)
  }
  for (const [index, place] of places.entries()) {
    const next = places[index + 1]
    if (!next) {
      known.push({ mm: place.markMm, k: place.setting === null ? 0 : bentTo(place.setting) })
      continue
    }
    for (let part = 0; part < PARTS; part++) {
      const share = part / PARTS
      const mm = place.markMm + (next.markMm - place.markMm) * share
      // Of radii it is the curvature that changes evenly.
      const inverse = (setting: number | null) => (setting === null ? 0 : isDepth ? setting : 1 / setting)
      const mixed = inverse(place.setting) * (1 - share) + inverse(next.setting) * share
      known.push({ mm, k: mixed === 0 ? 0 : bentTo(isDepth ? mixed : 1 / mixed) })
    }
  }
  return (mm: number) => {
    const after = known.findIndex((each) => each.mm >= mm)
    if (after <= 0) return known[after === 0 ? 0 : known.length - 1]!.k
    const [a, b] = [known[after - 1]!, known[after]!]
    return a.k + ((b.k - a.k) * (mm - a.mm)) / (b.mm - a.mm)
  }
}

const STEP_MM = 2

/** Lays a piece evenly on the drawn rail, from where it begins along it, and finds where it is furthest beside it. */
function furthestBeside(
  drawn: DrawnRail,
  atMm: number,
  trimStartMm: number,
  finishedMm: number,
  shaped: readonly Shaped[],
): number {
  const steps = Math.max(1, Math.round(finishedMm / STEP_MM))
  const h = finishedMm / steps
  let [x, y, heading] = [0, 0, 0]
  const points = [{ x, y }]
  const targets = [drawn.at(atMm)]
  for (let step = 0; step < steps; step++) {
    const u = (step + 0.5) * h
    const there = drawn.at(atMm + u)
    const plan = drawn.planPerMm(atMm + u)
    const stretch = shaped.find(({ fromMm, toMm }) => trimStartMm + u >= fromMm && trimStartMm + u < toMm)
    const k = !stretch ? 0 : stretch.curvature ? stretch.curvature(trimStartMm + u) : there.curvature
    const turned = k * h * plan
    x += h * plan * Math.cos(heading + turned / 2)
    y += h * plan * Math.sin(heading + turned / 2)
    heading += turned
    points.push({ x, y })
    targets.push(drawn.at(atMm + (step + 1) * h))
  }
  return furthest(points, targets)
}

/** How far points lie beside theirs when they are laid as near to them as they go: by least squares, then evenly. */
function furthest(
  points: readonly { x: number; y: number }[],
  targets: readonly { x: number; y: number; heading: number }[],
) {
  const mean = (list: readonly { x: number; y: number }[]) => ({
    x: list.reduce((sum, each) => sum + each.x, 0) / list.length,
    y: list.reduce((sum, each) => sum + each.y, 0) / list.length,
  })
  const [p0, t0] = [mean(points), mean(targets)]
  let [cos, sin] = [0, 0]
  for (const [index, { x, y }] of points.entries()) {
    const [px, py] = [x - p0.x, y - p0.y]
    const [tx, ty] = [targets[index]!.x - t0.x, targets[index]!.y - t0.y]
    cos += px * tx + py * ty
    sin += px * ty - py * tx
  }
  const turn = Math.atan2(sin, cos)
  const besides = points.map(({ x, y }, index) => {
    const { x: tx, y: ty, heading } = targets[index]!
    const px = t0.x + (x - p0.x) * Math.cos(turn) - (y - p0.y) * Math.sin(turn)
    const py = t0.y + (x - p0.x) * Math.sin(turn) + (y - p0.y) * Math.cos(turn)
    return (py - ty) * Math.cos(heading) - (px - tx) * Math.sin(heading)
  })
  // Moved over until it is as far out on one side as on the other.
  return (Math.max(...besides) - Math.min(...besides)) / 2
}

/** The chord is held against the concave side of the head, half the head's width nearer to the centre. */
function checkOff({ bends }: Card, bench: SimulatedBench, headWidthMm: number): number {
  return Math.max(
    0,
    ...bends.map((bend) => {
      if (!('marksMm' in bend) || !bend.check || bend.setting.by === 'spring-in') return 0
      const radiusMm = 1 / bench.bent(bend.setting) - headWidthMm / 2
      const half = bend.check.chordMm / 2
      return Math.abs(radiusMm - Math.sqrt(radiusMm ** 2 - half ** 2) - bend.check.midMm)
    }),
  )
}
