import { expect, it } from 'vitest'
import { blocksOf } from '../../src/estimate/track/blocks.ts'

const track = { name: 'main', lengthMm: 10_000, closed: false }
const pair = (stationMm: number, kind: 'joiner' | 'insulated' | 'closing') => [
  { stationMm, kind },
  { stationMm, kind },
]
const ends = (blocks: ReturnType<typeof blocksOf>) =>
  blocks.map(({ fromMm, toMm, closed, joints }) => [fromMm, toMm, closed, joints])

// By hand.
it('an open track is one block, and one more for each pair of insulated joints inside it', () => {
  expect(ends(blocksOf(track, pair(1500, 'joiner')))).toEqual([[0, 10_000, false, 2]])
  const joints = [...pair(1500, 'joiner'), ...pair(4000, 'insulated'), ...pair(6000, 'joiner'), ...pair(8000, 'joiner')]
  expect(ends(blocksOf(track, joints))).toEqual([
    [0, 4000, false, 2],
    [4000, 10_000, false, 4],
  ])
  expect(ends(blocksOf(track, pair(10_000, 'insulated')))).toEqual([[0, 10_000, false, 0]])
})

it('a loop is fed all round, or from its first pair of insulated joints over its start', () => {
  const loop = { ...track, closed: true }
  const joints = [...pair(0, 'closing'), ...pair(1500, 'joiner')]
  expect(ends(blocksOf(loop, joints))).toEqual([[0, 10_000, true, 4]])
  expect(ends(blocksOf(loop, [...joints, ...pair(4000, 'insulated')]))).toEqual([[4000, 14_000, false, 4]])
  const two = [...joints, ...pair(4000, 'insulated'), ...pair(7000, 'insulated')]
  expect(ends(blocksOf(loop, two))).toEqual([
    [4000, 7000, false, 0],
    [7000, 14_000, false, 4],
  ])
})
