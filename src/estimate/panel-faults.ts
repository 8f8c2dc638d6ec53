import { sameRadius } from '../laying/ready-made.ts'
import { exceeds } from '../measure/counting.ts'
import type { Fault } from '../measure/fault.ts'
import type { PanelInput } from './plan.ts'

/**
 * What is wrong with ready-made track that is listed, beside what its fields say.
 *
 * @param panels null where one could not be read and has been reported
 * @param radiusFaults what is wrong with a radius of the centre line at a place
 */
export function panelFaults(
  panels: readonly (PanelInput | null)[],
  radiusFaults: (radiusMm: number, at: Fault['path']) => Fault[],
): Fault[] {
  return panels.flatMap((panel, index): Fault[] => {
    if (!panel) return []
    const at = ['supplies', 'panels', index]
    const twin = panels.findIndex((other) => other && isTwin(other, panel))
    return [
      ...('radius' in panel ? radiusFaults(panel.radius, [...at, 'radius']) : []),
      ...(twin < index
        ? [
            {
              path: [...at, 'radius' in panel ? 'angle' : 'length'],
              code: 'duplicate-length' as const,
              detail: `ready-made piece ${twin + 1} is of the same size, and ${(panel.ties ?? 0) > 0 ? 'has ties too' : 'has no ties either'}`,
              hint: 'list each size once with ties and once without, with its price and what is on hand together',
            },
          ]
        : []),
    ]
  })
}

/** Of the same kind and as long: nothing would tell them apart but the price. */
export function isTwin(a: PanelInput, b: PanelInput): boolean {
  if ((a.ties ?? 0) > 0 !== (b.ties ?? 0) > 0) return false
  const [radiusA, radiusB] = [a, b].map((panel) => ('radius' in panel ? panel.radius : null))
  const [lengthA, lengthB] = [a, b].map((panel) =>
    'length' in panel ? panel.length : ((panel.angle * Math.PI) / 180) * panel.radius,
  )
  return sameRadius(radiusA!, radiusB!) && !exceeds(Math.abs(lengthA! - lengthB!), 0)
}
