import type { Pen } from './pen.ts'
import type { TypeSizes } from './sizes.ts'

/** The room that blocks are laid out for. */
export interface Room {
  readonly widthPt: number
  /** Of a page. */
  readonly heightPt: number
  readonly type: TypeSizes
}

/** Something of a certain height that is not divided between pages. */
export interface Strip {
  readonly heightPt: number
  /** Whether it must not be the last on its page unless nothing follows: a heading, the beginning of a table. */
  readonly keepNext: boolean
  /** White space at the top that is left out at the top of a page. */
  readonly abovePt: number
  /** What stands above it where it comes first on a page: the head of its table. */
  readonly again: readonly Strip[]
  /** @param y of its upper edge, below the white space */
  draw(pen: Pen, x: number, y: number): void
}

export function strip(heightPt: number, draw: Strip['draw'], more: Partial<Strip> = {}): Strip {
  return { heightPt, keepNext: false, abovePt: 0, again: [], ...more, draw }
}

/** The height of strips one below the other. */
export function heightOf(strips: readonly Strip[]): number {
  return strips.reduce((sum, { heightPt, abovePt }, index) => sum + heightPt + (index > 0 ? abovePt : 0), 0)
}

/** Draws strips one below the other. */
export function drawAll(pen: Pen, strips: readonly Strip[], x: number, y: number): void {
  let at = y
  for (const [index, each] of strips.entries()) {
    at += index > 0 ? each.abovePt : 0
    each.draw(pen, x, at)
    at += each.heightPt
  }
}

/** Strips as one that is not divided. */
export function asOne(strips: readonly Strip[], more: Partial<Strip> = {}): Strip {
  return strip(heightOf(strips), (pen, x, y) => drawAll(pen, strips, x, y), {
    abovePt: strips[0]?.abovePt ?? 0,
    ...more,
  })
}

/** Strips that stay together, as far as a page has room for them. */
export function together(strips: readonly Strip[]): Strip[] {
  return strips.map((each, index) => (index < strips.length - 1 ? { ...each, keepNext: true } : each))
}
