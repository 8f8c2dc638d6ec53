import type { Fault } from '../../measure/fault.ts'
import type { PlanDraft } from '../reading/draft.ts'
import type { ObstacleInput } from '../rows/obstacles.ts'
import { duplicateNames } from './duplicate-names.ts'

type Corner = NonNullable<ObstacleInput['polygon']>[number]

/** Obstacles of one name, and polygons that are no outline of anything. */
export function obstacleFaults({ obstacles = [], outline }: PlanDraft): Fault[] {
  return [
    ...duplicateNames(
      obstacles.map((obstacle) => obstacle?.name),
      'obstacles',
      'obstacle',
    ),
    ...obstacles.flatMap((obstacle, index) =>
      noOutline(obstacle?.polygon, ['obstacles', index, 'polygon'], 'the obstacle'),
    ),
    ...noOutline(outline, ['outline'], 'the garden'),
  ]
}

/** Fewer are a fault of their own. */
const LEAST_CORNERS = 3

function noOutline(corners: readonly Corner[] | null | undefined, path: Fault['path'], what: string): Fault[] {
  const crossing = corners && corners.length >= LEAST_CORNERS && crossingSides(corners)
  if (!crossing) return []
  const [one, other] = crossing
  return [
    {
      path,
      code: 'contradictory',
      detail: `the sides after corners ${one + 1} and ${other + 1} cross or touch each other`,
      hint: `list the corners in their order around ${what}, each once; the last is joined to the first`,
    },
  ]
}

/** The first two sides that have more in common than the corner between them; null where there are none. */
function crossingSides(corners: readonly Corner[]): readonly [number, number] | null {
  const side = (index: number) => [corners[index]!, corners[(index + 1) % corners.length]!] as const
  for (const index of corners.keys()) {
    const [a, b] = side(index)
    if (a.x === b.x && a.y === b.y) return [index, index]
    const next = (index + 1) % corners.length
    const [, c] = side(next)
    const turnsBack = cross(a, b, c) === 0 && (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0
    if (turnsBack) return [index, next]
    for (let other = index + 2; other < corners.length; other++) {
      const areNeighbours = index === 0 && other === corners.length - 1
      if (!areNeighbours && meet(a, b, ...side(other))) return [index, other]
    }
  }
  return null
}

function meet(a: Corner, b: Corner, c: Corner, d: Corner): boolean {
  const apart = (p: number, q: number, r: number, s: number) => Math.max(p, q) < Math.min(r, s)
  if (apart(a.x, b.x, c.x, d.x) || apart(c.x, d.x, a.x, b.x)) return false
  if (apart(a.y, b.y, c.y, d.y) || apart(c.y, d.y, a.y, b.y)) return false
  return cross(a, b, c) * cross(a, b, d) <= 0 && cross(c, d, a) * cross(c, d, b) <= 0
}

/** Positive where c lies left of the way from a to b. */
function cross(a: Corner, b: Corner, c: Corner): number {
  return Math.sign((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x))
}
