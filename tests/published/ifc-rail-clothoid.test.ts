import { describe, expect, it } from 'vitest'
import { poseAlong } from '../../src/track/clothoid.ts'
import { placeElements } from '../../src/track/place.ts'
import { poseAt } from '../track/tracks.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * buildingSMART International, IFC Rail conformance data, alignment ALRW2 "Clothoid": from straight to R 300 m over
 * 100 m, published as x, y at a distance s along it. Compared to 1e-9 of the 100 m.
 */
const RADIUS = 300
const LENGTH = 100
const WITHIN = 1e-9 * LENGTH
const POINTS = [
  [10, 9.9999972222226, 0.0055555544533],
  [50, 49.9913201421206, 0.6943583325788],
  [75, 74.9341088479007, 2.3422790281811],
  [100, 99.7225792178275, 5.5445423656288],
] as const

const ORIGIN = { xMm: 0, yMm: 0, headingRad: 0 }

const alone: Row[] = POINTS.flatMap(([s, x, y]) => {
  const at = poseAlong(ORIGIN, 0, 1 / RADIUS, LENGTH, s)
  return [
    { what: `x at ${s}`, printed: x, computed: at.xMm, within: WITHIN, label: 'published' as const },
    { what: `y at ${s}`, printed: y, computed: at.yMm, within: WITHIN, label: 'published' as const },
  ]
})

/** The same clothoid as an easement between a tangent and an arc, turning either way. */
const withinTrack: Row[] = (['left', 'right'] as const).flatMap((turn) => {
  const placed = placeElements(
    ORIGIN,
    [
      { kind: 'tangent', length: 40 },
      { kind: 'easement', length: LENGTH },
      { kind: 'arc', radius: RADIUS, length: 50, turn },
    ],
    false,
  )
  return POINTS.flatMap(([s, x, y]) => {
    const at = poseAt(placed, 40 + s)
    const across = turn === 'left' ? at.yMm : -at.yMm
    return [
      { what: `x at ${s}, ${turn}`, printed: x, computed: at.xMm - 40, within: WITHIN, label: 'published' as const },
      { what: `y at ${s}, ${turn}`, printed: y, computed: across, within: WITHIN, label: 'published' as const },
    ]
  })
})

/** Run against the stations, from R 300 to straight, and looked at from its far end. */
const backwards: Row[] = POINTS.flatMap(([s, x, y]) => {
  const far = poseAlong(ORIGIN, 1 / RADIUS, 0, LENGTH, LENGTH)
  const at = poseAlong(ORIGIN, 1 / RADIUS, 0, LENGTH, LENGTH - s)
  const [dx, dy] = [far.xMm - at.xMm, far.yMm - at.yMm]
  const [cos, sin] = [Math.cos(far.headingRad), Math.sin(far.headingRad)]
  return [
    { what: `x at ${s}, run backwards`, printed: x, computed: dx * cos + dy * sin, within: WITHIN, label: 'published' },
    { what: `y at ${s}, run backwards`, printed: y, computed: dx * sin - dy * cos, within: WITHIN, label: 'published' },
  ]
})

const end = poseAlong(ORIGIN, 0, 1 / RADIUS, LENGTH, LENGTH)
const fromIt: Row[] = [
  {
    what: 'θs, degrees',
    printed: 9.549297,
    computed: (end.headingRad * 180) / Math.PI,
    within: 5e-7,
    label: 'derived',
  },
  {
    what: 'p',
    printed: 1.38751,
    computed: end.yMm - RADIUS * (1 - Math.cos(end.headingRad)),
    within: 5e-6,
    label: 'derived',
  },
  {
    what: 'k',
    printed: 49.95374,
    computed: end.xMm - RADIUS * Math.sin(end.headingRad),
    within: 5e-6,
    label: 'derived',
  },
]

describe('the clothoid of IFC Rail', () => {
  const rows = [...alone, ...withinTrack, ...backwards, ...fromIt]

  it('agrees to 1e-9 of its length, alone and within a track', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 35 numbers, and a wrong one among them would show', () => {
    expect([alone.length, withinTrack.length, backwards.length, fromIt.length]).toEqual([8, 16, 8, 3])
    expect(blindRows(rows)).toEqual([])
  })
})
