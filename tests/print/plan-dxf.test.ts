import parser, {
  type DxfParser,
  type IArcEntity,
  type ICircleEntity,
  type ILineEntity,
  type ITextEntity,
} from 'dxf-parser'
import { describe, expect, test } from 'vitest'
import { DXF_LAYERS } from '../../src/paper/dxf.ts'
import { planDxf } from '../../src/print/plan-dxf.ts'
import { spurPlan } from '../estimate/turnout-plans.ts'
import { POND_PLAN } from '../page/pond-plan.ts'
import { worked } from '../page/worked.ts'

/*
 * The file as dxf-parser, a library of others, reads it. The radii, angles and ends are those of the plan by hand and
 * closed form; dxf-parser has angles in radians.
 */

/** Its types describe another module than the one Node gets. */
const Parser = parser as unknown as typeof DxfParser

const read = (plan: unknown) => new Parser().parseSync(planDxf(worked(plan)))!
const plan = (...elements: unknown[]) => ({
  gauge: 45,
  rail: { section: '250', material: 'brass' },
  tracks: [{ name: 'main', elements }],
})

type Shape = { readonly layer: string; readonly type: string }
const on = <T extends Shape>(file: ReturnType<typeof read>, layer: string, type: string) =>
  file.entities.filter((entity) => entity.layer === layer && entity.type === type) as unknown as T[]
const arcs = (file: ReturnType<typeof read>, layer: string) => on<IArcEntity>(file, layer, 'ARC')
const lines = (file: ReturnType<typeof read>, layer: string) => on<ILineEntity>(file, layer, 'LINE')

const endOf = ({ center, radius, startAngle, endAngle }: IArcEntity, which: 'start' | 'end') => {
  const angle = which === 'start' ? startAngle : endAngle
  return { x: center.x + radius * Math.cos(angle), y: center.y + radius * Math.sin(angle) }
}
const near = (got: { x: number; y: number }, x: number, y: number) => {
  expect(got.x).toBeCloseTo(x, 6)
  expect(got.y).toBeCloseTo(y, 6)
}

describe('a plan as DXF', () => {
  test('is in millimetres, with layers in the words of the trade', () => {
    const file = read(POND_PLAN)
    expect(file.header.$INSUNITS).toBe(4)
    expect(Object.keys(file.tables.layer.layers)).toEqual(expect.arrayContaining(Object.keys(DXF_LAYERS)))
    const used = new Set(file.entities.map(({ layer }) => layer))
    expect([...used].sort()).toEqual(['centre line', 'joints', 'pegs', 'rails', 'text', 'ties'])
  })

  test('a left-hand arc from the origin: centre above it, counter-clockwise (closed form)', () => {
    const file = read(plan({ kind: 'arc', radius: 2000, angle: 90, turn: 'left' }))
    const [arc] = arcs(file, 'centre line')
    near(arc!.center, 0, 2000)
    expect(arc!.radius).toBeCloseTo(2000, 6)
    near(endOf(arc!, 'start'), 0, 0)
    near(endOf(arc!, 'end'), 2000, 2000)
  })

  test('a right-hand arc runs counter-clockwise from its end to its start', () => {
    const file = read(plan({ kind: 'arc', radius: 2000, angle: 90, turn: 'right' }))
    const [arc] = arcs(file, 'centre line')
    near(arc!.center, 0, -2000)
    near(endOf(arc!, 'end'), 0, 0)
    near(endOf(arc!, 'start'), 2000, -2000)
  })

  test.each([200, 359.9, 1])('an arc of %d° keeps its angle', (angle) => {
    const [arc] = arcs(read(plan({ kind: 'arc', radius: 1500, angle, turn: 'left' })), 'centre line')
    const swept = (((arc!.endAngle - arc!.startAngle) * 180) / Math.PI + 720) % 360
    expect(swept).toBeCloseTo(angle, 6)
  })

  test('an arc of a whole turn or more is a circle', () => {
    const file = read(plan({ kind: 'arc', radius: 1500, angle: 400, turn: 'left' }))
    const circles = on<ICircleEntity>(file, 'centre line', 'CIRCLE')
    expect(circles).toHaveLength(1)
    expect(circles[0]!.radius).toBeCloseTo(1500, 6)
    expect(arcs(file, 'centre line')).toHaveLength(0)
  })

  test('rails are arcs with the centre of the track, half of gauge and head width away', () => {
    const made = worked(plan({ kind: 'arc', radius: 2000, angle: 30, turn: 'right' }))
    const radii = arcs(read(plan({ kind: 'arc', radius: 2000, angle: 30, turn: 'right' })), 'rails').map(
      ({ radius }) => radius,
    )
    const wanted = Object.values(made.estimate.tracks[0]!.elements[0]!.rails).map(({ radiusMm }) => radiusMm!)
    expect(radii).toHaveLength(2)
    for (const radius of wanted) expect(Math.min(...radii.map((each) => Math.abs(each - radius)))).toBeLessThan(1e-6)
  })

  test('every arc of the plan round the pond lies where the estimate has it, within 1e-6 mm', () => {
    const file = read(POND_PLAN)
    const elements = worked(POND_PLAN).estimate.tracks.flatMap((track) => track.elements)
    const wanted = elements.filter(({ kind }) => kind === 'arc')
    const drawn = arcs(file, 'centre line')
    expect(drawn).toHaveLength(wanted.length)
    for (const [n, { radiusMm, start, end }] of wanted.entries()) {
      expect(Math.abs(drawn[n]!.radius - radiusMm!)).toBeLessThan(1e-6)
      for (const place of [start, end]) {
        const ends = (['start', 'end'] as const).map((which) => endOf(drawn[n]!, which))
        expect(Math.min(...ends.map(({ x, y }) => Math.hypot(x - place.xMm, y - place.yMm)))).toBeLessThan(1e-6)
        const { center, radius } = drawn[n]!
        expect(Math.abs(Math.hypot(center.x - place.xMm, center.y - place.yMm) - radius)).toBeLessThan(1e-6)
      }
    }
  })

  test('easements are polylines from end to end, no chord further than 0.01 mm from the curve', () => {
    const file = read(
      plan(
        { kind: 'tangent', length: 500 },
        { kind: 'easement', length: 600 },
        { kind: 'arc', radius: 1500, angle: 30, turn: 'left' },
      ),
    )
    const [line] = on<Shape & { vertices: { x: number; y: number }[] }>(file, 'centre line', 'LWPOLYLINE')
    const { vertices } = line!
    near(vertices[0]!, 500, 0)
    expect(vertices.length).toBeGreaterThan(10)
    // The middle of a chord of length c on a curve of at most 1/1500 is at most c²/(8·1500) from it (closed form).
    for (const [n, to] of vertices.slice(1).entries())
      expect(Math.hypot(to.x - vertices[n]!.x, to.y - vertices[n]!.y) ** 2 / (8 * 1500)).toBeLessThan(0.01)
    // End of a clothoid of 600 mm to 1/1500, by the series x = L(1 − A²L⁴/40), y = AL³/6(1 − A²L⁴/56·…), A = 1/(R·L), by hand.
    const a = 1 / (1500 * 600)
    const theta2 = (a * 600 ** 2) ** 2 / 4
    const end = vertices.at(-1)!
    expect(end.x - 500).toBeCloseTo(600 * (1 - theta2 / 10 + theta2 ** 2 / 216), 3)
    expect(end.y).toBeCloseTo(((a * 600 ** 3) / 6) * (1 - theta2 / 14 + theta2 ** 2 / 440), 3)
  })

  test('ties are lines across the track at their spacing, joints circles on the rails', () => {
    const made = { ...plan({ kind: 'tangent', length: 2000 }), supplies: { ties: { spacing: 100 } } }
    const file = read(made)
    const across = lines(file, 'ties').map(({ vertices }) => vertices[0]!.x)
    expect(across).toHaveLength(21)
    expect(across[1]! - across[0]!).toBeCloseTo(100, 6)
    const joints = on<ICircleEntity>(file, 'joints', 'CIRCLE')
    expect(joints).toHaveLength(worked(made).estimate.joints.length)
    for (const { center } of joints) expect(Math.abs(center.y)).toBeGreaterThan(22.5)
  })

  test('a turnout has its other leg, points and frog on a layer of its own, and its name as text', () => {
    const file = read(spurPlan())
    expect(arcs(file, 'turnouts').length).toBeGreaterThanOrEqual(3)
    expect(on<ICircleEntity>(file, 'turnouts', 'CIRCLE')).toHaveLength(1)
    expect(on<ITextEntity>(file, 'text', 'TEXT').map(({ text }) => text)).toContain('W1')
  })

  test('a name with line breaks stays one text, and adds nothing to the drawing', () => {
    const hard = 'a\n0\nLINE\n8\nrails ü'
    const named = {
      ...plan({ kind: 'tangent', length: 500 }),
      tracks: [{ name: hard, elements: [{ kind: 'tangent', length: 500 }] }],
    }
    const file = read(named)
    expect(lines(file, 'rails')).toHaveLength(2)
    expect(on<ITextEntity>(file, 'text', 'TEXT').map(({ text }) => text)).toContain('a 0 LINE 8 rails ü')
  })

  test('the same plan is the same file', () => {
    expect(planDxf(worked(POND_PLAN))).toBe(planDxf(worked(POND_PLAN)))
  })
})
