import { describe, expect, it } from 'vitest'
import { networkOf } from '../../src/network/network.ts'
import { MOST_WAYS, waysThrough } from '../../src/network/ways.ts'
import { waysAnswer } from '../../src/network/ways-answer.ts'
import { loopPlan, spurPlan } from '../estimate/turnout-plans.ts'
import { worked } from '../estimate/worked.ts'
import { randomFrom } from '../random.ts'
import { movesOf, type Run, type SketchedTrack, sketch, tracksOf } from './random-networks.ts'

const TOLERANCES = { closureGap: 2, closureHeading: 0.5 }

const written = ({ part, forwards }: Run) => (forwards ? part : `-${part}`)
const back = (runs: readonly string[]) => runs.map((run) => (run.startsWith('-') ? run.slice(1) : `-${run}`)).reverse()
const least = (written: readonly string[][]) => written.map((runs) => runs.join(' ')).sort()[0]!
const rotations = (runs: readonly string[]) => runs.map((_, at) => [...runs.slice(at), ...runs.slice(0, at)])

/** The same text for a way and its reverse, and for a loop wherever it begins. Legs without a track are left out. */
function signature(all: readonly string[], loop: boolean): string {
  const runs = all.filter((run) => !run.includes('leg/'))
  const texts = loop ? [...rotations(runs), ...rotations(back(runs))] : [[...runs], back(runs)]
  return `${loop ? 'loop' : 'way'} ${least(texts)}`
}

/** Every sequence of runs without one twice, tried one after the other; those that are a way are kept. */
function bruteForce(sketched: readonly SketchedTrack[]): string[] {
  const { runs, next } = movesOf(sketched)
  const nextOf = new Map(runs.map((run) => [written(run), next(run).map(written)]))
  const before = (run: string) => [...nextOf].flatMap(([from, to]) => (to.includes(run) ? [from] : []))
  const found = new Set<string>()
  const grow = (way: string[]) => {
    const last = nextOf.get(way.at(-1)!)!
    const joins = last.includes(way[0]!)
    if (joins) found.add(signature(way, true))
    const stuck = last.every((run) => way.includes(run)) && before(way[0]!).every((run) => way.includes(run))
    if (stuck && !joins) found.add(signature(way, false))
    for (const run of last) if (!way.includes(run)) grow([...way, run])
  }
  for (const run of nextOf.keys()) grow([run])
  return [...found].sort()
}

/** The ways of the answer in the same words: each track is divided again at its points. */
function answered(sketched: readonly SketchedTrack[]): string[] {
  const tracks = tracksOf(sketched)
  const { ways, complete } = waysAnswer(networkOf(tracks, TOLERANCES), null)
  expect(complete).toBe(true)
  return ways
    .map(({ tracks: over, loop }) => {
      const runs = over.flatMap(({ track: name, fromMm, toMm, reversed }) => {
        const { turnouts, lengthMm } = tracks.find((track) => track.name === name)!
        const points = turnouts.map(({ enters, fromMm, toMm }) => (enters === 'points' ? fromMm : toMm))
        const parts = [0, ...points].flatMap((start, at) =>
          start >= fromMm && (points[at] ?? lengthMm) <= toMm ? [`${name}/${at}`] : [],
        )
        return reversed ? back(parts) : parts
      })
      return signature(runs, loop)
    })
    .sort()
}

describe('every way through a network', () => {
  it('is found once (500 random networks against trying everything)', () => {
    const random = randomFrom(14)
    let ways = 0
    let loops = 0
    for (let n = 0; n < 500; n++) {
      const sketched = sketch(random)
      const expected = bruteForce(sketched)
      expect(answered(sketched), JSON.stringify(sketched)).toEqual(expected)
      ways += expected.length
      loops += expected.filter((text) => text.startsWith('loop')).length
    }
    expect(ways).toBeGreaterThan(1000)
    expect(loops).toBeGreaterThan(100)
  })

  it('of n passing loops in a row there are 2ⁿ, of which so many are listed', () => {
    // By hand: end 1 of the lead goes to either side of each loop, and both sides to the next lead.
    const row = (count: number) => {
      const links = Array.from({ length: 2 * (3 * count + 1) }, (): number[] => [])
      const link = (a: number, b: number) => {
        links[a]!.push(b)
        links[b]!.push(a)
      }
      for (let n = 0; n < count; n++)
        for (const side of [1, 2]) {
          link(6 * n + 1, 6 * n + 2 * side)
          link(6 * n + 2 * side + 1, 6 * n + 6)
        }
      return waysThrough(links)
    }
    expect(row(1)).toMatchObject({ ways: { length: 2 }, complete: true })
    expect(row(8)).toMatchObject({ ways: { length: 256 }, complete: true })
    // 41 runs each: 20,000 runs in all are the limit here, 500 ways where they are shorter.
    expect(row(20)).toMatchObject({ ways: { length: Math.floor(20_000 / 41) }, complete: false })
    expect(row(10)).toMatchObject({ ways: { length: MOST_WAYS }, complete: false })
  })

  it('over a reverse loop a train comes back to where it came from', () => {
    const sketched: SketchedTrack[] = [
      { name: 'a', closed: false, turnouts: [{ name: 'W1', facing: true, leg: 'through' }], from: null, to: 'W1' },
    ]
    expect(answered(sketched)).toEqual(['way a/0 -a/1 -a/0'])
  })

  it('along the points two tracks whose starts are the two legs are not one way', () => {
    const made = worked(spurPlan())
    const { toMm } = made.tracks[0]!.elements[0]!
    expect(made.ways.map(({ tracks }) => tracks)).toEqual([
      [{ track: 'main', fromMm: 0, toMm: made.tracks[0]!.lengthMm, reversed: false }],
      [
        { track: 'main', fromMm: 0, toMm, reversed: false },
        { track: 'spur', fromMm: 0, toMm: 1500, reversed: false },
      ],
    ])
  })

  it('past a passing loop there are two, from end to end', () => {
    const made = worked(loopPlan())
    expect(made.waysComplete).toBe(true)
    expect(made.ways.map(({ loop, tracks }) => [loop, ...tracks.map(({ track }) => track)])).toEqual([
      [false, 'main'],
      [false, 'main', 'siding', 'main'],
    ])
  })
})

describe('tracks without turnouts', () => {
  const rail = { section: '250', material: 'brass' }
  const tangent = (length: number) => ({ kind: 'tangent', length })
  const waysOf = (tracks: readonly object[]) => worked({ rail, tracks }).ways

  it('are a way each, a closed one a loop', () => {
    const circle = {
      name: 'circle',
      closed: true,
      start: { y: 5000 },
      elements: [{ kind: 'arc', radius: 1000, angle: 360, turn: 'left' }],
    }
    const ways = waysOf([{ name: 'a', elements: [tangent(900)] }, circle])
    expect(ways.map(({ loop }) => loop)).toEqual([false, true])
    expect(ways[0]!.tracks).toEqual([{ track: 'a', fromMm: 0, toMm: 900, reversed: false }])
    expect(ways[1]!.tracks).toHaveLength(1)
  })

  it('that continue from each other, or meet in place, are one way', () => {
    const tracks = [
      { name: 'a', elements: [tangent(900)] },
      { name: 'b', start: { after: 'a' }, elements: [tangent(500)] },
      // From the other side: its end is where b ends.
      { name: 'c', start: { x: 2000, heading: 180 }, elements: [tangent(600)] },
    ]
    expect(waysOf(tracks)).toEqual([
      {
        loop: false,
        reverseCurves: [],
        tracks: [
          { track: 'a', fromMm: 0, toMm: 900, reversed: false },
          { track: 'b', fromMm: 0, toMm: 500, reversed: false },
          { track: 'c', fromMm: 0, toMm: 600, reversed: true },
        ],
      },
    ])
    expect(waysOf(tracks.map((track) => ({ ...track, state: track.name === 'b' ? 'lifted' : 'new' })))).toHaveLength(2)
  })
})
