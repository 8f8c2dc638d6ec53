import type { Fault } from '../../measure/fault.ts'
import { isTwin } from '../panels.ts'
import type { PanelInput } from '../rows/supplies.ts'

/**
 * Faults of listed ready-made track, besides those of its single fields.
 *
 * @param panels null where one could not be read and has been reported
 * @param radiusFaults the faults of a radius of the centre line at a place
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
              detail: `ready-made piece ${twin + 1} has the same size and ${(panel.ties ?? 0) > 0 ? 'also has ties' : 'also has no ties'}`,
              hint: 'list each size once with ties and once without, with its price and what is on hand together',
            },
          ]
        : []),
    ]
  })
}
