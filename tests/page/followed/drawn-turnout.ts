import type { PlanInput } from '../../../src/plan/rows/plan.ts'
import type { TrackInput } from '../../../src/plan/rows/track.ts'

type ElementInput = TrackInput['elements'][number]
export type DrawnElement = Exclude<ElementInput, { kind: 'turnout' | 'crossing' }>
export type KindInput = NonNullable<PlanInput['turnoutTypes']>[number]

const GAUGE_MM = 45

/**
 * The two legs of a turnout with a straight frog and no heel, from its number N = ½·cot(F/2): straight on, or an arc from
 * the points to the frog and straight on from there to where the centre lines are two gauges apart.
 *
 * (R + g/2)·(1 − cos F) = g, length along the straight: R·sin F + (2·g − R·(1 − cos F))/tan F
 *
 * R the radius of the centre line, g the gauge. In a wye both legs turn by F/2, and everything across is half as much.
 */
export function legOfTurnout({ hand, number }: Kind, leg: 'through' | 'diverging'): DrawnElement[] {
  const { isWye, share, turned } = turnOf({ number, hand })
  const radius = (GAUGE_MM * share) / (1 - Math.cos(turned)) - GAUGE_MM / 2
  const restMm = (2 * GAUGE_MM * share - radius * (1 - Math.cos(turned))) / Math.sin(turned)
  if (leg === 'through' && !isWye)
    return [{ kind: 'tangent', length: radius * Math.sin(turned) + restMm * Math.cos(turned) }]
  const turn = isWye ? (leg === 'diverging' ? 'left' : 'right') : (hand as 'left' | 'right')
  return [
    { kind: 'arc', radius, angle: (turned * 180) / Math.PI, turn },
    { kind: 'tangent', length: restMm },
  ]
}

/** The point of its frog, where the gauge lines cross, from its points: g·cot(F/2) along them, half the gauge aside. */
export function frogOfTurnout(kind: Kind) {
  const { isWye, share, turned } = turnOf(kind)
  const y = isWye ? 0 : (kind.hand === 'left' ? 1 : -1) * (GAUGE_MM / 2)
  return { x: (GAUGE_MM * share) / Math.tan(turned / 2), y, heading: 0 }
}

type Kind = Pick<KindInput, 'hand' | 'number'>

/** By how much a leg turns, and how much of the distances of a one-sided turnout its legs make. */
function turnOf({ hand, number }: Kind) {
  if (!number || !hand) throw new Error('only turnouts by number are drawn')
  const isWye = hand === 'wye'
  const share = isWye ? 0.5 : 1
  return { isWye, share, turned: 2 * Math.atan(1 / (2 * number)) * share }
}

/** A track's elements with the legs of its turnouts in place of them, and the stations of these. */
export function drawnElements(elements: readonly ElementInput[], kinds: readonly KindInput[]) {
  const turnouts: { name: string; fromMm: number; toMm: number }[] = []
  let atMm = 0
  const drawn = elements.flatMap((element): DrawnElement[] => {
    if (element.kind === 'crossing') throw new Error('crossings are not drawn')
    const parts = element.kind === 'turnout' ? legAlong(element, kinds) : [element]
    const lengthMm = parts.reduce((sum, part) => sum + lengthOf(part), 0)
    if (element.kind === 'turnout') turnouts.push({ name: element.name, fromMm: atMm, toMm: atMm + lengthMm })
    atMm += lengthMm
    return parts
  })
  return { elements: drawn, turnouts }
}

function legAlong(element: ElementInput & { kind: 'turnout' }, kinds: readonly KindInput[]): DrawnElement[] {
  const { type, enters, leaves = 'through' } = element
  const kind = kinds.find(({ id }) => id === type)!
  if (enters === 'points') return legOfTurnout(kind, leaves)
  const back = legOfTurnout(kind, enters).toReversed()
  return back.map((part) =>
    part.kind === 'arc' ? { ...part, turn: part.turn === 'left' ? ('right' as const) : ('left' as const) } : part,
  )
}

export function curvatureOf(element: DrawnElement): number {
  if (element.kind !== 'arc') return 0
  return (element.turn === 'left' ? 1 : -1) / element.radius
}

export function lengthOf(element: DrawnElement): number {
  if (element.kind !== 'arc') return element.length
  if (element.length !== undefined) return element.length
  return ((element.angle ?? 0) * Math.PI) / 180 / Math.abs(curvatureOf(element))
}
