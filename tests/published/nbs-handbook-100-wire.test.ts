import { expect, it } from 'vitest'
import { awgAreaMm2, COPPER_OHM_M, ohmsPerMetre } from '../../src/laying/wire.ts'
import { blindRows, misses, type Row } from './rows.ts'

const FEET = 1000
const M_PER_FOOT = 0.3048

/**
 * National Bureau of Standards Handbook 100, *Copper Wire Tables*: ohms per 1000 ft of solid annealed copper at 20 °C.
 * From memory, the source not read again; they agree with the gauge's own law and the IACS resistivity to the last digit.
 */
const TABLE = [
  [10, 0.9988, 0.0001],
  [12, 1.588, 0.001],
  [14, 2.525, 0.001],
  [16, 4.016, 0.001],
  [18, 6.385, 0.001],
  [20, 10.15, 0.01],
  [22, 16.14, 0.01],
] as const

const rows: Row[] = TABLE.map(([awg, printed, within]) => ({
  what: `AWG ${awg}`,
  printed,
  computed: ohmsPerMetre(COPPER_OHM_M, awgAreaMm2(awg)) * M_PER_FOOT * FEET,
  within,
  label: 'from memory',
}))

it('the wire table agrees', () => {
  expect(misses(rows)).toEqual([])
  expect(rows).toHaveLength(7)
  expect(blindRows(rows)).toEqual([])
})

it('gauge 36 is 5 mil thick and gauge 0000 would be 460, by the definition of the gauge', () => {
  // closed form; 10 is the ratio's 26th step from 36 of 39
  const diameterMil = (awg: number) => Math.sqrt((4 * awgAreaMm2(awg)) / Math.PI) / 0.0254
  expect(diameterMil(36)).toBeCloseTo(5, 12)
  expect(diameterMil(-3)).toBeCloseTo(460, 9)
})
