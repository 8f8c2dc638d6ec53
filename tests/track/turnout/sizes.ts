import { turnoutOf } from '../../../src/track/turnout/turnout.ts'
import type { TurnoutGeometry, TurnoutSize } from '../../../src/track/turnout/types.ts'

/** One turnout of every form, by hand where it has one. */
export const SIZES: Readonly<Record<string, TurnoutSize>> = {
  'straight frog with switch and toe': {
    hand: 'left',
    number: 6,
    heelSpread: 6.5,
    heelAngle: 2.5,
    pointLength: 150,
    toeLength: 60,
    length: 720,
  },
  'straight frog without': { hand: 'left', number: 6, form: 'straight-frog' },
  'straight frog by angle and radius': { hand: 'left', angle: 9.5, radius: 3000 },
  'curved frog by number': { hand: 'left', number: 8, form: 'curved-frog' },
  'curved frog by radius and angle': { hand: 'left', form: 'curved-frog', radius: 2438.4, angle: 22.5 },
  'wye by number': { hand: 'wye', number: 4, form: 'straight-frog', toeLength: 40 },
  'wye with curved frog': { hand: 'wye', form: 'curved-frog', radius: 2000, angle: 30 },
  'both curved': { hand: 'left', form: 'both-curved', outerRadius: 3048, radius: 2438.4, angle: 26 },
  measured: { hand: 'left', measured: { length: 600, divergingAngle: 9.5, divergingOffset: 52, radius: 2743.2 } },
  'measured without radius': { hand: 'left', measured: { length: 600, divergingAngle: 9.5, divergingOffset: 52 } },
}

/** Throws where it contradicts itself. */
export function worked(size: TurnoutSize, gaugeMm = 45): TurnoutGeometry {
  const result = turnoutOf(size, gaugeMm)
  if (!result.ok) throw new Error(result.faults.map(({ field, detail }) => `${field}: ${detail}`).join('; '))
  return result.turnout
}
