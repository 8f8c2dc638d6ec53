import { expect, it } from 'vitest'
import { planFaults } from '../../../src/estimate/faults/faults.ts'
import type { TrackInput } from '../../../src/plan/rows/track.ts'
import { BRASS_250, straight } from '../../estimate/plans.ts'

const track = (name: string, more: Partial<TrackInput> = {}): TrackInput => ({
  name,
  elements: [straight(900)],
  ...more,
})
const after = (name: string) => ({ start: { after: name } })
const before = (name: string) => ({ end: { before: name } })
const faults = (...tracks: TrackInput[]) =>
  planFaults({ rail: BRASS_250, tracks }).map(({ path, code, detail, hint }) => ({
    at: `/${path.join('/')}`,
    code,
    detail,
    hint,
  }))

it.each<[string, TrackInput[]]>([
  ['a chain in any order', [track('c', after('b')), track('b', after('a')), track('a')]],
  ['a ring whose last track ends before the first', [track('a'), track('b', { ...after('a'), ...before('a') })]],
  ['an end at a place', [track('a', { end: { at: { x: 1, y: 2 } } })]],
  [
    'an end at a place where existing track is joined',
    [track('a', { end: { at: { x: 1, y: 2 } }, joinsExisting: { end: true } })],
  ],
  ['the same join said from both sides', [track('a', before('b')), track('b', after('a'))]],
  [
    'old track lifted, new track from the same end',
    [track('a'), track('b', { ...after('a'), state: 'lifted' }), track('c', after('a'))],
  ],
])('%s is sound', (_, tracks) => {
  expect(faults(...tracks)).toEqual([])
})

it('a name that is no track is refused with the nearest one', () => {
  expect(faults(track('old line'), track('new', after('old lime')), track('spur', before('siding')))).toEqual([
    {
      at: '/tracks/1/start/after',
      code: 'unknown-value',
      detail: 'there is no track "old lime" in this plan',
      hint: 'did you mean "old line"?',
    },
    {
      at: '/tracks/2/end/before',
      code: 'unknown-value',
      detail: 'there is no track "siding" in this plan',
      hint: 'use the name of another track, such as "old line"',
    },
  ])
  expect(faults(track('a', after('zebra')))[0]?.hint).toBe('the plan has no other track')
})

it('each track of a circle is reported, and no track that only leads into it', () => {
  const circle = [track('a', after('c')), track('b', after('a')), track('c', after('b'))]
  const found = faults(...circle)
  expect(found.map(({ at, code }) => `${at} ${code}`)).toEqual([
    '/tracks/0/start/after contradictory',
    '/tracks/1/start/after contradictory',
    '/tracks/2/start/after contradictory',
  ])
  expect(found[0]?.detail).toBe(
    '"a" continues from "c", which continues from "b", which continues from it again: none of them has a place',
  )
  const leadingIn = faults(
    track('a', after('b')),
    track('b', after('a')),
    track('c', { ...after('b'), state: 'lifted' }),
  )
  expect(leadingIn.map(({ at }) => at)).toEqual(['/tracks/0/start/after', '/tracks/1/start/after'])
})

it.each<[string, TrackInput[], string[]]>([
  ['itself', [track('a', after('a'))], ['/tracks/0/start/after']],
  ['before itself', [track('a', before('a'))], ['/tracks/0/end/before']],
  ['a closed loop', [track('a', { closed: true }), track('b', after('a'))], ['/tracks/1/start/after']],
  [
    'a closed track that continues',
    [track('a'), track('b', { ...after('a'), closed: true })],
    ['/tracks/1/start/after'],
  ],
  ['a closed track with an end', [track('a', { closed: true, end: { at: { x: 0, y: 0 } } })], ['/tracks/0/end']],
  [
    'a position as well',
    [track('a'), track('b', { start: { after: 'a', x: 0, heading: 0 } })],
    ['/tracks/1/start/after'],
  ],
  [
    'an elevation at 0 as well',
    [track('a'), track('b', { ...after('a'), gradeLine: [{ at: 0, elevation: 0 }] })],
    ['/tracks/1/gradeLine/0/at'],
  ],
  [
    'existing track as well',
    [track('a'), track('b', { ...after('a'), joinsExisting: { start: true } })],
    ['/tracks/1/joinsExisting/start'],
  ],
  [
    'an end with existing track as well',
    [track('a'), track('b', { ...before('a'), joinsExisting: { end: true } })],
    ['/tracks/1/joinsExisting/end'],
  ],
  [
    'an end that joins existing track',
    [track('a', { joinsExisting: { end: true } }), track('b', after('a'))],
    ['/tracks/1/start/after'],
  ],
  ['two tracks from one end', [track('a'), track('b', after('a')), track('c', after('a'))], ['/tracks/2/start/after']],
  ['two tracks to one start', [track('a'), track('b', before('a')), track('c', before('a'))], ['/tracks/2/end/before']],
  [
    'a start that another continues',
    [track('a'), track('b', after('a')), track('c', before('b'))],
    ['/tracks/2/end/before'],
  ],
])('%s is refused', (_, tracks, expected) => {
  expect(faults(...tracks).map(({ at }) => at)).toEqual(expected)
})
