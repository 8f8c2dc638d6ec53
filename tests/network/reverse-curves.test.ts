import { describe, expect, it } from 'vitest'
import { patched } from '../../src/fitting/json-patch.ts'
import { frogAngleRad } from '../../src/track/turnout/frog.ts'
import { worked } from '../estimate/worked.ts'

const LIMIT_MM = 711
const tangent = (length: number) => ({ kind: 'tangent', length })
const arc = (turn: string) => ({ kind: 'arc', radius: 3000, angle: 20, turn })
const easement = { kind: 'easement', length: 300 }

function plan(tracks: readonly object[], types: readonly object[] = []) {
  return {
    rail: { section: '250', material: 'brass' },
    turnoutTypes: types,
    standards: { minimumRadius: 1000, minimumTangentBetweenReverseCurves: LIMIT_MM },
    tracks,
  }
}

const found = (sent: unknown) => worked(sent).findings.filter(({ rule }) => rule === 'reverse-curve')
const listed = (sent: unknown) => worked(sent).ways.map(({ reverseCurves }) => reverseCurves)

describe('from one track to the next', () => {
  const two = (before: readonly object[], after: readonly object[]) =>
    plan([
      { name: 'a', elements: before },
      { name: 'b', start: { after: 'a' }, elements: after },
    ])

  it('a reverse curve is found once, and its straight is the sum of both tracks', () => {
    const sent = two([arc('left'), tangent(300)], [tangent(200), arc('right')])
    expect(found(sent)).toMatchObject([
      { severity: 'warn', track: 'b', element: 1, measured: 500, limit: LIMIT_MM, unit: 'mm' },
    ])
    expect(listed(sent)).toEqual([[{ atTrack: 'b', atMm: 200, straightMm: 500 }]])
    expect(found(patched(sent, found(sent)[0]!.remedy!))).toEqual([])
  })

  it('at the limit there is none, below it one; none where both curves turn to one side or have easements', () => {
    const apart = (mm: number) => two([arc('left'), tangent(mm)], [arc('right')])
    expect(found(apart(LIMIT_MM))).toEqual([])
    expect(found(apart(LIMIT_MM - 1))).toHaveLength(1)
    expect(found(two([arc('left')], [arc('left')]))).toEqual([])
    const eased = two([arc('left'), easement], [easement, arc('right')])
    expect(found(eased)).toEqual([])
    expect(listed(eased)).toEqual([[]])
    expect(found(two([arc('left'), easement], [arc('right')]))).toHaveLength(1)
  })

  it('mirrored it is the same', () => {
    const [one] = found(two([arc('left')], [arc('right')]))
    const [other] = found(two([arc('right')], [arc('left')]))
    expect(other).toEqual(one)
  })

  it('across a straight track between them', () => {
    const sent = plan([
      { name: 'a', elements: [arc('left')] },
      { name: 'b', start: { after: 'a' }, elements: [tangent(400)] },
      { name: 'c', start: { after: 'b' }, elements: [arc('right')] },
    ])
    expect(found(sent)).toMatchObject([{ track: 'c', element: 0, measured: 400 }])
  })

  it('one of a single track, or at a join with existing track, is not found a second time', () => {
    expect(found(plan([{ name: 'a', elements: [arc('left'), arc('right')] }]))).toHaveLength(1)
    const sent = two([arc('left')], [arc('right')])
    const existing = { ...sent, tracks: [{ ...sent.tracks[0], state: 'existing' }, sent.tracks[1]] }
    expect(found(existing)).toHaveLength(1)
  })
})

describe('through turnouts', () => {
  /** Two parallel straights and a straight from the diverging leg of W1 to that of W2. */
  function crossover(type: object, connectingMm: number) {
    const turnout = (name: string, enters: string) => ({ kind: 'turnout', name, type: 'kind', enters })
    return plan(
      [
        { name: 'one', elements: [tangent(1000), turnout('W1', 'points'), tangent(2000)] },
        { name: 'two', start: { y: 150 }, elements: [tangent(2000), turnout('W2', 'through'), tangent(1000)] },
        {
          name: 'over',
          start: { from: { turnout: 'W1', leg: 'diverging' } },
          end: { to: { turnout: 'W2', leg: 'diverging' } },
          elements: [tangent(connectingMm)],
        },
      ],
      [{ id: 'kind', hand: 'left', ...type }],
    )
  }

  it('a crossover of two No. 6 with straight frogs is a note, 150 mm apart', () => {
    const six = { number: 6, length: 700 }
    const f = frogAngleRad(6, 'half-cot')
    const legMm = worked(crossover(six, 30)).tracks[0]!.elements[1]!.turnout!.divergingEnd.yMm
    const sent = crossover(six, (150 - 2 * legMm) / Math.sin(f))
    // Closed form: both curves have R = 2gN² = 3240 mm and turn by F; the straight between takes what is left of 150 mm.
    const straightMm = (150 - 2 * 3240 * (1 - Math.cos(f))) / Math.sin(f)
    const notes = found(sent)
    expect(notes).toHaveLength(1)
    expect(notes[0]).toMatchObject({ severity: 'note', element: 1, limit: LIMIT_MM })
    expect(notes[0]!.measured).toBeCloseTo(straightMm, 6)
    expect(notes[0]!.message).toMatch(/W1 to W2|W2 to W1/)
    // Straight on there is none; over the crossover there is one.
    expect(
      listed(sent)
        .map(({ length }) => length)
        .sort(),
    ).toEqual([0, 0, 1])
  })

  it('back to back with curved frogs it is a warning', () => {
    const sent = crossover({ form: 'curved-frog', radius: 3000, angle: 12 }, 10)
    expect(found(sent)).toMatchObject([{ severity: 'warn', measured: expect.closeTo(10, 6) }])
  })

  it('which goes where the straight between them is made longer and the other track moved away with it', () => {
    const sent = crossover({ form: 'curved-frog', radius: 3000, angle: 12 }, 10)
    const made = worked(sent)
    const over = made.tracks[2]!.end
    const w2 = made.tracks[1]!.elements[1]!.turnout!.divergingEnd
    const start = { x: over.xMm - w2.xMm, y: 150 + over.yMm - w2.yMm }
    const joined = { ...sent, tracks: [sent.tracks[0], { ...sent.tracks[1], start }, sent.tracks[2]] }
    const notMet = (of: unknown) => worked(of).findings.filter(({ rule }) => rule === 'leg-not-met')
    expect(notMet(joined)).toEqual([])
    const [finding, ...more] = found(joined)
    expect(more).toEqual([])
    expect(finding!.remedy).not.toBeNull()
    const cured = patched(joined, finding!.remedy!)
    expect(found(cured)).toEqual([])
    expect(notMet(cured)).toEqual([])
    const after = worked(cured)
    expect(after.tracks[2]!.lengthMm).toBeGreaterThanOrEqual(LIMIT_MM)
    // The track goes away sideways by the sine of 12° of what the straight grew.
    const grownMm = after.tracks[2]!.lengthMm - 10
    const apart = (of: typeof after) => of.tracks[1]!.start.yMm
    expect(apart(after) - apart(worked(joined))).toBeCloseTo(grownMm * Math.sin((12 * Math.PI) / 180), 5)
  })

  it('or where both become turnouts with straight frogs, the tracks staying where they are', () => {
    const curved = { form: 'curved-frog', radius: 3000, angle: 12 }
    // Sticks so long that no rail is divided.
    const open = { ...crossover(curved, 160), supplies: { sticks: [{ length: 6000 }] } }
    const made = worked(open)
    const [over, w2] = [made.tracks[2]!.end, made.tracks[1]!.elements[1]!.turnout!.divergingEnd]
    const start = { x: over.xMm - w2.xMm, y: 150 + over.yMm - w2.yMm }
    const joined = { ...open, tracks: [open.tracks[0], { ...open.tracks[1], start }, open.tracks[2]] }
    const straightened = (sent: unknown) => {
      const { remedy, otherRemedies } = found(sent)[0]!
      return [remedy!, ...otherRemedies].filter((patch) => patch.some(({ path }) => path.endsWith('/type')))
    }
    const patches = straightened(joined)
    expect(patches.length).toBeGreaterThan(0)
    for (const patch of patches) {
      const cured = patched(joined, patch)
      const { findings, tracks } = worked(cured)
      expect(findings.filter(({ rule, severity }) => rule === 'leg-not-met' || severity !== 'note')).toEqual([])
      expect(found(cured).every(({ severity }) => severity === 'note')).toBe(true)
      // Both straights begin and end where they did.
      for (const [index, before] of worked(joined).tracks.slice(0, 2).entries())
        for (const end of ['start', 'end'] as const) {
          expect(tracks[index]![end].xMm).toBeCloseTo(before[end].xMm, 2)
          expect(tracks[index]![end].yMm).toBeCloseTo(before[end].yMm, 2)
        }
    }
    // A kind of the plan is taken before a new one; one of the other hand is none.
    const named = { id: 'long', hand: 'left', number: 8, length: 800 }
    const withKinds = {
      ...joined,
      turnoutTypes: [...joined.turnoutTypes, { ...named, id: 'other', hand: 'right' }, named],
    }
    expect(straightened(withKinds)[0]).toContainEqual({
      op: 'replace',
      path: '/tracks/0/elements/1/type',
      value: 'long',
    })
    expect(JSON.stringify(straightened(withKinds))).not.toContain('"other"')
  })

  it('a curve before the points against that of the diverging leg is found once, at the turnout', () => {
    const sent = plan(
      [
        {
          name: 'main',
          elements: [
            arc('right'),
            tangent(100),
            { kind: 'turnout', name: 'W1', type: 'six', enters: 'points' },
            tangent(500),
          ],
        },
        { name: 'spur', start: { from: { turnout: 'W1', leg: 'diverging' } }, elements: [tangent(500)] },
      ],
      [{ id: 'six', hand: 'left', number: 6 }],
    )
    expect(found(sent)).toMatchObject([{ severity: 'warn', track: 'main', element: 2, measured: 100 }])
    expect(listed(sent).map(({ length }) => length)).toEqual([0, 1])
  })

  it('round a loop the last curve comes before the first', () => {
    const halves = [
      { name: 'a', elements: [arc('left'), tangent(100)] },
      {
        name: 'b',
        start: { after: 'a' },
        end: { before: 'a' },
        elements: [tangent(900), { ...arc('left'), angle: 340 }, arc('right')],
      },
    ]
    // Within b, and from the end of b to the start of a.
    expect(found(plan(halves)).map(({ track, element }) => `${track} ${element}`)).toEqual(['b 2', 'a 0'])
    const [loop] = worked(plan(halves)).ways
    expect(loop!.loop).toBe(true)
    expect(loop!.reverseCurves).toHaveLength(2)
  })
})
