import { Line } from '../../src/room/line.ts'
import type { CarPlan } from '../../src/room/overhang.ts'
import { placeElements } from '../../src/track/place.ts'
import { specialTrackOf } from '../../src/track/turnout/special-track.ts'
import { type PlacedElement, partsOf } from '../../src/track/types.ts'

/* Tracks of straights, arcs, easements and turnouts, and cars to run on them. */

const SPECIAL = specialTrackOf(
  [
    { id: 'six', hand: 'left', number: 6 },
    { id: 'heel', hand: 'right', number: 5, heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 },
    { id: 'wide', hand: 'right', form: 'curved-frog', radius: 2438.4, angle: 22.5 },
    { id: 'wye', hand: 'wye', number: 4 },
  ],
  45,
)

type Drawn = Parameters<typeof placeElements>[1][number]

export function randomTrack(random: () => number, mirrored = false): PlacedElement[] {
  const between = (least: number, most: number) => least + (most - least) * random()
  const turn = () => (random() < 0.5 === mirrored ? ('right' as const) : ('left' as const))
  const label = null
  const elements: Drawn[] = []
  const arc = (): Drawn => ({
    kind: 'arc',
    ...{ radius: between(900, 4000), angle: null, length: between(100, 1500), turn: turn(), label },
  })
  for (let n = 0; n < 6; n++) {
    const what = random()
    if (what < 0.25) elements.push({ kind: 'tangent', length: between(20, 900), label })
    else if (what < 0.5) elements.push(arc())
    else if (what < 0.8)
      elements.push({ kind: 'easement', length: between(100, 900), label }, arc(), {
        ...{ kind: 'easement', length: between(100, 900), label },
      })
    else {
      const type = ['six', 'heel', 'wide', 'wye'][Math.floor(4 * random())]!
      const enters = (['points', 'through', 'diverging'] as const)[Math.floor(3 * random())]!
      const leaves = enters === 'points' ? (random() < 0.5 ? ('through' as const) : ('diverging' as const)) : null
      elements.push({ kind: 'turnout', name: `W${n}`, type, enters, leaves, label })
    }
    // Easements must not follow each other.
    elements.push({ kind: 'tangent', length: between(5, 300), label })
  }
  return placeElements({ xMm: 300, yMm: -200, headingRad: 0.7 }, elements, false, SPECIAL)
}

export function lineOf(placed: readonly PlacedElement[]): Line {
  return new Line(placed.flatMap(partsOf))
}

export function randomCar(random: () => number): CarPlan {
  const lengthMm = 200 + 600 * random()
  return { lengthMm, truckCentresMm: lengthMm * (0.4 + 0.5 * random()), widthMm: 80 + 90 * random() }
}
