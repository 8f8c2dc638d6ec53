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

/** Type sizes, and from one base line to the next, pt. */
export const TYPE = {
  text: { size: 8.4, leading: 10.5 },
  table: { size: 7.6, leading: 9.3 },
  headings: {
    1: { size: 14, leading: 18, above: 8 },
    2: { size: 10.5, leading: 13, above: 8 },
    3: { size: 8.6, leading: 11, above: 5 },
  },
} as const
