import { farEnd, type Net } from './net.ts'

/**
 * Elevations to start from, carried from the known ones along rises, in as few readings as possible; null where none
 * leads there.
 */
export function roughElevations({ names, elevationsMm, readings }: Net): (number | null)[] {
  const rises = names.map((_, index) =>
    readings.filter(({ kind, from, to }) => kind === 'rise' && (from === index || to === index)),
  )
  const found = [...elevationsMm]
  const queue = names.flatMap((_, index) => (found[index] === null ? [] : [index]))
  for (let next = 0; next < queue.length; next++) {
    const near = queue[next]!
    for (const reading of rises[near]!) {
      const far = farEnd(reading, near)
      if (found[far] !== null) continue
      found[far] = found[near]! + (reading.from === near ? reading.measuredMm : -reading.measuredMm)
      queue.push(far)
    }
  }
  return found
}
