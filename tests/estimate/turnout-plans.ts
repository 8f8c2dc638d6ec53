import { frogAngleRad } from '../../src/track/turnout/frog.ts'
import { crossoverOf } from '../../src/track/turnout/parallels.ts'

/* Plans with turnouts, as they are sent. */

interface Sent {
  readonly kind: string
  readonly length?: number
}

export const SIX_LEFT = { id: 'six-left', hand: 'left', number: 6, price: '62.00', onHand: 1 }
export const SIX_RIGHT = { ...SIX_LEFT, id: 'six-right', hand: 'right' }

export const CROSSOVER_STRAIGHT_MM = crossoverOf(150, 45, frogAngleRad(6, 'half-cot')).straightMm

export const asSent = () => ({ rail: { section: '250', material: 'brass', temper: 'half-hard' } })

/** A straight with a turnout 1 m from its start, and a spur from it. */
export function spurPlan(type: object = {}, turnout: object = {}) {
  const elements: Sent[] = [
    { kind: 'tangent', length: 1000 },
    { kind: 'turnout', name: 'W1', type: 'six-left', enters: 'points', ...turnout } as Sent,
    { kind: 'tangent', length: 2000 },
  ]
  const leg = 'leaves' in turnout && turnout.leaves === 'diverging' ? 'through' : 'diverging'
  return {
    ...asSent(),
    turnoutTypes: [{ ...SIX_LEFT, ...type }],
    tracks: [
      { name: 'main', elements },
      {
        name: 'spur',
        start: { from: { turnout: 'W1', leg } },
        elements: [{ kind: 'tangent', length: 1500 }] as Sent[],
      },
    ],
  }
}

/**
 * A passing loop 150 mm beside a straight: both turnouts No. 6, their diverging legs brought parallel by an arc of 3 m.
 * Closed forms: a leg ends 90 mm off at the angle F; the arc takes 3000(1 − cos F) of what is left, a straight the rest.
 */
export function loopPlan() {
  const f = frogAngleRad(6, 'half-cot')
  const straight = (60 - 3000 * (1 - Math.cos(f))) / Math.sin(f)
  const onlyMm = 2000
  const betweenMm = onlyMm + 2 * (straight * Math.cos(f) + 3000 * Math.sin(f))
  const arc = (turn: string) => ({ kind: 'arc', radius: 3000, angle: (f * 180) / Math.PI, turn })
  const main: Sent[] = [
    { kind: 'tangent', length: 1000 },
    { kind: 'turnout', name: 'W1', type: 'six-left', enters: 'points' } as Sent,
    { kind: 'tangent', length: betweenMm },
    { kind: 'turnout', name: 'W2', type: 'six-right', enters: 'through' } as Sent,
    { kind: 'tangent', length: 1000 },
  ]
  const siding: Sent[] = [
    { kind: 'tangent', length: straight },
    arc('right'),
    { kind: 'tangent', length: onlyMm },
    arc('right'),
    { kind: 'tangent', length: straight },
  ]
  return {
    ...asSent(),
    turnoutTypes: [SIX_LEFT, SIX_RIGHT],
    tracks: [
      { name: 'main', elements: main },
      {
        name: 'siding',
        start: { from: { turnout: 'W1', leg: 'diverging' } },
        end: { to: { turnout: 'W2', leg: 'diverging' } },
        elements: siding,
      },
    ],
  }
}

interface Step {
  readonly op: string
  readonly path: string
  readonly value?: unknown
}

/** A JSON Patch of replacements carried out. */
export function applied(plan: unknown, patch: readonly Step[]): unknown {
  const copy = structuredClone(plan)
  for (const { op, path, value } of patch) {
    if (op !== 'replace') throw new Error(`only replacements: ${op}`)
    const tokens = path.split('/').slice(1)
    let at = copy as Record<string, unknown>
    for (const token of tokens.slice(0, -1)) at = at[token] as Record<string, unknown>
    at[tokens.at(-1)!] = value
  }
  return copy
}
