import type { PictureBox } from '../picture.ts'

/** Only straight lines to places that are given as such: the lines of a track. */
const POLYLINES = /^[ML\d\s.-]*$/

/**
 * The part of a path that can be seen in a box, so that the pages of a large plan do not each have all of it. Lines that
 * cross the box stay whole. A path with anything but straight lines is returned as it is; empty: nothing can be seen.
 */
export function withinBox(d: string, { x, y, width, height }: PictureBox): string {
  if (!POLYLINES.test(d)) return d
  const seen: string[] = []
  for (const line of d.split('M').slice(1)) {
    const numbers = line.match(/-?[\d.]+/g)?.map(Number) ?? []
    let open = false
    for (let at = 2; at + 1 < numbers.length; at += 2) {
      const [fromX, fromY, toX, toY] = numbers.slice(at - 2, at + 2) as [number, number, number, number]
      const beside = Math.max(fromX, toX) < x || Math.min(fromX, toX) > x + width
      const above = Math.max(fromY, toY) < y || Math.min(fromY, toY) > y + height
      if (!beside && !above) seen.push(open ? `L${toX} ${toY}` : `M${fromX} ${fromY}L${toX} ${toY}`)
      open = !beside && !above
    }
  }
  return seen.join('')
}
