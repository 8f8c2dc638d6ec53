import { describe, expect, it } from 'vitest'
import { type JoinableTrack, joinedEnds } from '../../src/laying/joins.ts'

const pose = (xMm: number, yMm: number, headingDeg: number) => ({ xMm, yMm, headingRad: (headingDeg * Math.PI) / 180 })
const track = (
  start: JoinableTrack['start'],
  end: JoinableTrack['end'],
  more: Partial<JoinableTrack> = {},
): JoinableTrack => ({
  name: 'one',
  before: null,
  start,
  end,
  closed: false,
  joinsExisting: { start: false, end: false },
  ...more,
})
const ofPlan = (tracks: JoinableTrack[]) =>
  joinedEnds(tracks, 2, 0.5).map((ends) => ends.ofPlan.map(({ end, otherTrack }) => `${end} to ${otherTrack}`))

const first = track(pose(0, 0, 0), pose(1000, 0, 0))

describe('ends of tracks of one plan', () => {
  it.each([
    ['end to start', track(pose(1000, 0, 0), pose(2000, 0, 0)), ['start to 0']],
    ['end to end', track(pose(2000, 0, 180), pose(1000, 0, 180)), ['end to 0']],
    ['start to start', track(pose(0, 0, 180), pose(-1000, 0, 180)), ['start to 0']],
    ['both ends', track(pose(1000, 0, 0), pose(0, 0, 0)), ['start to 0', 'end to 0']],
    ['a full turn apart in heading', track(pose(1000, 0, 360), pose(2000, 0, 360)), ['start to 0']],
    ['within the gap and the heading', track(pose(1001.9, 0, 0.4), pose(2000, 0, 0)), ['start to 0']],
    ['too far', track(pose(1002.1, 0, 0), pose(2000, 0, 0)), []],
    ['at an angle', track(pose(1000, 0, 0.6), pose(2000, 0, 0)), []],
    ['lying on each other', track(pose(0, 0, 0), pose(900, 0, 0)), []],
    ['closed', track(pose(1000, 0, 0), pose(1000, 0, 0), { closed: true }), []],
    [
      'declared to join existing track',
      track(pose(1000, 0, 0), pose(2000, 0, 0), { joinsExisting: { start: true, end: false } }),
      [],
    ],
  ])('%s', (_, second, expected) => {
    expect(ofPlan([first, second])).toEqual([[], expected])
  })

  it.each([
    [
      'its end',
      { ...first, before: 'two' },
      { ...track(pose(1900, 0, 0), pose(5000, 0, 0)), name: 'two' },
      'start to 0',
    ],
    ['its start', { ...first, name: 'two' }, track(pose(-5000, 0, 0), pose(-900, 0, 0), { before: 'two' }), 'end to 0'],
  ])('that must meet are joined across any gap: by %s', (_, earlier, later, expected) => {
    expect(ofPlan([earlier, later])).toEqual([[], [expected]])
  })

  it('what the earlier track declared is left at that', () => {
    const declared = { ...first, joinsExisting: { start: false, end: true } }
    const joined = joinedEnds([declared, track(pose(1000, 0, 0), pose(2000, 0, 0))], 2, 0.5)
    expect(joined).toEqual([
      { existing: ['end'], ofPlan: [] },
      { existing: [], ofPlan: [] },
    ])
  })
})
