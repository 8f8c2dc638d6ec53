import type { Patch } from '../../fitting/json-patch.ts'
import { mmOf } from '../../fitting/patches.ts'
import { lengthLike } from '../../measure/as-written.ts'
import type { PlacedElement } from '../../track/types.ts'
import { type Line, sentElements, unitOf } from './line.ts'

/** A step of a patch, and by how much it makes a track longer. */
interface Longer {
  readonly step: Patch[number]
  readonly addedMm: number
}

/** A straight made longer, rounded up as it is written; where there is none, one is put in so far along the elements. */
export function longerBy(
  line: Pick<Line, 'sent'>,
  track: number,
  straight: PlacedElement | undefined,
  byMm: number,
  insertAt: number,
): Longer {
  const sent = sentElements(line, track)
  const path = `/tracks/${track}/elements`
  const isStraight = straight?.kind === 'tangent'
  const given = isStraight ? sent[straight.index]!.length : unitOf(sent)
  const length = lengthLike(given, (isStraight ? straight.lengthMm : 0) + byMm, 0, 'up')
  if (isStraight)
    return {
      step: { op: 'replace', path: `${path}/${straight.index}/length`, value: length },
      addedMm: mmOf(length) - straight.lengthMm,
    }
  return {
    step: { op: 'add', path: `${path}/${insertAt}`, value: { kind: 'tangent', length } },
    addedMm: mmOf(length),
  }
}
