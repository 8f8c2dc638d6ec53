import { describe, expect, it } from 'vitest'
import { haulOn } from '../../src/hauling/train.ts'
import { networkOf } from '../../src/network/network.ts'
import { frontAt, TrainWays } from '../../src/network/train-ways.ts'
import { elevationOn, gradesOn, type Profile, profileOf } from '../../src/track/grade.ts'
import { randomFrom } from '../random.ts'
import { sketch, tracksOf } from './random-networks.ts'

const CURVE_MM = 15
const MEETING = { closureGap: 5, closureHeading: 1 }

/** A random network whose tracks climb and fall at random. */
function randomHills(random: () => number) {
  const profiles: Profile[] = []
  const tracks = tracksOf(sketch(random)).map((track) => {
    const points = Array.from({ length: 4 }, (_, at) => ({ at: at * 700, gradePct: 6 * random() - 3 }))
    const profile = profileOf(points)
    profiles.push(profile)
    return { ...track, grades: gradesOn(profile, track.lengthMm) }
  })
  const trainMm = 300 + 1200 * random()
  return { tracks, profiles, trainMm, network: networkOf(tracks, MEETING) }
}

type Hills = ReturnType<typeof randomHills>

/** Rise and turn of a part of a run, from its profile and its pieces: of a leg as much as the other leg beside it rises. */
function loadOf({ tracks, profiles, network }: Hills, run: number, fromMm: number, toMm: number): number {
  const { track, fromMm: startMm, toMm: endMm, legOf, pieces } = network.stretches[run >> 1]!
  const lengthMm = pieces.reduce((sum, piece) => sum + piece.lengthMm, 0)
  const [a, b] = run % 2 === 0 ? [fromMm, toMm] : [lengthMm - toMm, lengthMm - fromMm]
  const turnout = tracks[track]!.turnouts.find(({ name }) => name === legOf)
  const z = (mm: number) => elevationOn(profiles[track]!, mm)
  const legRise = turnout ? (z(turnout.toMm) - z(turnout.fromMm)) * (turnout.enters === 'points' ? 1 : -1) : 0
  const rise = turnout ? (legRise * (b - a)) / lengthMm : z(startMm + b) - z(startMm + a)
  let [passedMm, turned] = [0, 0]
  for (const piece of pieces) {
    const within = Math.min(b, passedMm + piece.lengthMm) - Math.max(a, passedMm)
    if (within > 0) turned += Math.abs(piece.startCurvature) * within
    passedMm += piece.lengthMm
  }
  if (!turnout) expect(lengthMm).toBeCloseTo(endMm - startMm, 6)
  return (run % 2 === 0 ? rise : -rise) + CURVE_MM * turned
}

/** The most that lies under a train of even weight behind a place of a run, by trying every way it may have come. */
function mostBehind(hills: Hills, run: number, atMm: number, leftMm: number, on: readonly number[]): number {
  const takenMm = Math.min(atMm, leftMm)
  const here = loadOf(hills, run, atMm - takenMm, atMm)
  if (leftMm <= atMm) return here
  const { links, stretches } = hills.network
  const before = links[run]!.map((end) => end ^ 1)
  if (before.length === 0) {
    // As at the start of its track, or its end, for ever.
    const endMm = 1e-6
    return here + (loadOf(hills, run, 0, endMm) / endMm) * (leftMm - atMm)
  }
  const free = before.filter((each) => !on.includes(each >> 1))
  const lengthOf = (each: number) => stretches[each >> 1]!.pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
  return (
    here +
    Math.max(
      ...(free.length > 0 ? free : before).map((each) =>
        mostBehind(hills, each, lengthOf(each), leftMm - atMm, [...on, each >> 1]),
      ),
    )
  )
}

describe('the hardest place of a train on a network', () => {
  it('is that of every way it may have come, in small steps (150 random networks)', () => {
    let severalTracks = 0
    const random = randomFrom(815)
    for (let index = 0; index < 150; index++) {
      const hills = randomHills(random)
      const { tracks, trainMm, network } = hills
      const ways = new TrainWays(network, tracks)
      expect(ways.isComplete(trainMm)).toBe(true)
      for (const track of tracks.keys()) {
        const train = [{ lengthMm: trainMm, weightN: trainMm, rolling: 0, curveMm: CURVE_MM }]
        const { climbing } = haulOn(ways.ofTrack(track, trainMm), train)
        let most = Number.NEGATIVE_INFINITY
        for (const [stretch, each] of network.stretches.entries()) {
          if (each.track !== track) continue
          const lengthMm = each.pieces.reduce((sum, piece) => sum + piece.lengthMm, 0)
          for (const run of [2 * stretch, 2 * stretch + 1])
            for (let step = 0; step <= 40; step++)
              most = Math.max(most, mostBehind(hills, run, (lengthMm * step) / 40, trainMm, []))
        }
        expect(climbing.pullN).toBeGreaterThan(most - 1e-4)
        // Between two steps of at most 70 mm it cannot change by more than this.
        expect(climbing.pullN).toBeLessThan(most + 70 * (0.06 + CURVE_MM / 500))
        const front = frontAt(climbing.on, climbing.frontMm)
        expect(front.track).toBe(track)
        if (new Set(climbing.on.passed.map((each) => each.track)).size > 1) severalTracks++
      }
    }
    expect(severalTracks).toBeGreaterThan(50)
  })

  it('trains of about one length share their ways', () => {
    const { network, tracks } = randomHills(randomFrom(7))
    const ways = new TrainWays(network, tracks)
    expect(ways.ofTrack(0, 900)).toBe(ways.ofTrack(0, 800))
  })
})
