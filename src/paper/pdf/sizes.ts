/** 72 points in an inch. */
export const POINTS_PER_MM = 72 / 25.4

/** Short and long side of a page, pt: ISO 216 A4 is 210 × 297 mm, letter 8-1/2 × 11 in. */
export const SIZES = {
  a4: [210 * POINTS_PER_MM, 297 * POINTS_PER_MM],
  letter: [612, 792],
} as const

/** From each edge of the paper, pt: more than what any printer leaves white. */
export const MARGIN_PT = 11 * POINTS_PER_MM

/** The line at the foot of each page, with the space above it, pt. */
export const FOOT_PT = 14

/** A size of type, from one base line to the next, and the white space above, pt. */
export interface TypeSize {
  readonly size: number
  readonly leading: number
  readonly above: number
}

export interface TypeSizes {
  readonly text: TypeSize
  readonly table: TypeSize
  readonly headings: Readonly<Record<1 | 2 | 3, TypeSize>>
}

/** @param scale smaller where a little more has to fit */
export function typeSizes(scale: number): TypeSizes {
  const type = (size: number, leading: number, above: number) => ({
    size: size * scale,
    leading: leading * scale,
    above: above * scale,
  })
  return {
    text: type(8.4, 10.5, 2.5),
    table: type(7.6, 9.3, 4),
    headings: { 1: type(14, 18, 8), 2: type(10.5, 13, 8), 3: type(8.6, 11, 5) },
  }
}
