import type { Chain, ChainUnknown, Link } from '../../fitting/chain.ts'
import { followedBy } from '../../fitting/motion.ts'
import { stretchesBetween } from '../../fitting/trades.ts'
import { isOpen, openFields } from '../../plan/elements.ts'
import type { TrackToFit } from './track-to-fit.ts'

/** What of which element an unknown is. */
export interface OpenFigure {
  readonly element: number
  readonly kind: ChainUnknown['kind']
}

/** What a track leaves open, in order: of an arc first its radius. */
export function openFigures({ elements }: Pick<TrackToFit, 'elements'>): OpenFigure[] {
  return elements.flatMap((each, element) => {
    if (each.kind === 'connect' || !isOpen(each)) return []
    return openFields(each).map((field) => ({
      element,
      kind: field === 'radius' ? field : each.kind === 'arc' ? 'angle' : 'length',
    }))
  })
}

/**
 * The chain of what is open in a track, and of the easements beside arcs whose radius is.
 *
 * @param held lengths of straights that are not left open here, by element
 */
export function openChain(track: TrackToFit, open: readonly OpenFigure[], held?: ReadonlyMap<number, number>): Chain {
  const { placed, closed, elements } = track
  const unknownOf = (element: number, isRadius: boolean) => {
    const at = open.findIndex((each) => each.element === element && (each.kind === 'radius') === isRadius)
    return at < 0 ? undefined : at
  }
  const radiusAt = (element: number) => unknownOf(closed ? (element + placed.length) % placed.length : element, true)
  const links = placed.flatMap(({ kind }, element): (Link & OpenFigure)[] => {
    const heldMm = held?.get(element)
    const shape = heldMm === undefined ? placed[element]! : { ...placed[element]!, lengthMm: heldMm }
    const isEasement = kind === 'easement'
    const size = unknownOf(element, false)
    const radius = unknownOf(element, true)
    const startRadius = isEasement ? radiusAt(element - 1) : undefined
    const endRadius = isEasement ? radiusAt(element + 1) : undefined
    if ([size, radius, startRadius, endRadius].every((each) => each === undefined) && heldMm === undefined) return []
    const given = elements[element]!
    const keepsLength = radius !== undefined && given.kind === 'arc' && typeof given.length === 'number'
    return [{ element, kind: 'length', shape, size, radius, keepsLength, startRadius, endRadius }]
  })
  const [first, ...stretches] = stretchesBetween(track, links)
  return {
    unknowns: open.map(({ element, kind }) => ({ kind, shape: placed[element]! })),
    links,
    stretches: [followedBy(track.start, first!), ...stretches],
    leverMm: (placed.at(-1)?.toMm ?? 0) / (2 * Math.PI),
  }
}
