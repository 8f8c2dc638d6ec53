import { describe, expect, it } from 'vitest'
import { readRemedy, remedyButton, remedyInWords } from '../../src/page/sheets/line/remedy.ts'
import { textOf } from './markup.ts'
import { changed, visiting } from './visiting.ts'

const LOOP = {
  rail: { section: '250', material: 'brass', temper: 'half-hard' },
  standards: { longestCar: '20 in' },
  tracks: [
    {
      name: 'main',
      closed: true,
      elements: [
        { kind: 'tangent', length: '10 ft' },
        { kind: 'arc', diameter: '20 ft', angle: 179, turn: 'left' },
        { kind: 'tangent', length: '10 ft' },
        { kind: 'arc', diameter: '20 ft', angle: 180, turn: 'left' },
      ],
    },
  ],
}

const page = visiting()

/** The plan that a page without the form takes along; null where it has the form. */
function planIn(fields: ReadonlyMap<string, string>): unknown {
  const whole = fields.get('whole')
  return whole === undefined ? null : JSON.parse(whole)
}

describe('a remedy on the page', () => {
  it('is a button beside its finding that changes the plan and shows it again, unsaved', async () => {
    const { id } = await page.store().create({ name: 'Loop', notes: '', plan: LOOP })
    const before = await page.get(`/plans/${id}`)
    expect(before.text).toContain('The end misses the start')
    expect(before.text).toContain('Apply: angle of element 2: 180°')
    const patch = [{ op: 'replace', path: '/tracks/0/elements/1/angle', value: 180 }]
    const after = await page.post(`/plans/${id}`, changed(before.fields, { do: `remedy ${JSON.stringify(patch)}` }))
    expect(after.status).toBe(200)
    expect(after.text).not.toContain('The end misses the start')
    const [track] = LOOP.tracks
    const mended = track!.elements.map((element, index) => (index === 1 ? { ...element, angle: 180 } : element))
    expect(planIn(after.fields)).toEqual({ ...LOOP, tracks: [{ ...track, elements: mended }] })
    expect(after.text).toContain('changes not saved')
    expect((await page.store().get(id))!.plan).toEqual(LOOP)
  })

  it.each([
    'remedy',
    'remedy {',
    'remedy {}',
    'remedy [1]',
    'remedy [{"op":"move","path":"/a"}]',
    'remedy [{"op":"remove","path":"/no/such"}]',
  ])('something else in its place (%s) leaves the plan as it is', async (button) => {
    const { id } = await page.store().create({ name: 'Loop', notes: '', plan: LOOP })
    const before = await page.get(`/plans/${id}`)
    const after = await page.post(`/plans/${id}`, changed(before.fields, { do: button }))
    const form = await page.post(`/plans/${id}`, changed(before.fields, { do: 'edit' }))
    expect(form.fields.get('tracks.0.elements.1.angle')).toBe('179')
    expect(planIn(after.fields) ?? LOOP).toEqual(LOOP)
  })

  it('says in words what it does to breaks, heights, chords and joints', () => {
    const said = (...patch: Parameters<typeof remedyInWords>[0]) => remedyInWords(patch)
    expect(said({ op: 'replace', path: '/tracks/0/breaks/1/at', value: '3 ft' })).toBe('break 2 at 3 ft')
    expect(
      said(
        { op: 'add', path: '/tracks/0/breaks', value: [] },
        { op: 'add', path: '/tracks/0/breaks/-', value: { at: 800, kind: 'insulated' } },
      ),
    ).toBe('an insulated break at 800 mm')
    expect(said({ op: 'replace', path: '/joints/stagger', value: 250 })).toBe('stagger of the joints: 250 mm')
    expect(said({ op: 'add', path: '/tracks/1/start', value: { elevation: 102 } })).toBe(
      'elevation of the start: 102 mm',
    )
    expect(said({ op: 'add', path: '/tracks/1/start/elevation', value: 102 })).toBe('elevation of the start: 102 mm')
    expect(
      said(
        { op: 'add', path: '/tracks/0/gradeLine', value: [] },
        { op: 'add', path: '/tracks/0/gradeLine/-', value: { at: 0, elevation: 0 } },
        { op: 'add', path: '/tracks/0/gradeLine/-', value: { at: 3000, elevation: 102 } },
      ),
    ).toBe('elevation 0 mm at 0 mm, elevation 102 mm at 3000 mm')
    expect(said({ op: 'add', path: '/chords', value: [300] })).toBe('leave this chord out')
  })

  it('says in words which cars a train leaves behind, and where a track is moved to', () => {
    const said = (...patch: Parameters<typeof remedyInWords>[0]) => remedyInWords(patch)
    expect(
      said({ op: 'remove', path: '/trains/0/cars/4' }, { op: 'replace', path: '/trains/0/cars/3/count', value: 2 }),
    ).toBe('without entry 5 behind the engine of train 1, only 2 of entry 4 behind the engine of train 1')
    expect(
      said({ op: 'add', path: '/tracks/0/start', value: {} }, { op: 'add', path: '/tracks/0/start/y', value: '3 in' }),
    ).toBe('y of the start: 3 in')
    expect(said({ op: 'add', path: '/tracks/0/gradeLine/1/verticalCurve', value: 900 })).toBe(
      'vertical curve of grade line point 2: 900 mm',
    )
  })

  it('says in words what it changes', () => {
    const words = remedyInWords([
      { op: 'replace', path: '/tracks/0/elements/0/length', value: 2500 },
      { op: 'replace', path: '/tracks/0/elements/3/turn', value: 'left' },
      { op: 'add', path: '/tracks/1/elements/4', value: { kind: 'easement', length: '2 ft' } },
      { op: 'add', path: '/tracks/1/elements/4', value: { kind: 'tangent', length: 500 } },
      { op: 'remove', path: '/tracks/0/elements/5/diameter' },
      { op: 'add', path: '/tracks/0/elements/5/radius', value: '5 ft' },
      { op: 'replace', path: '/tracks/0/gradeLine/1/elevation', value: '3 in' },
      { op: 'remove', path: '/chords/1' },
    ])
    expect(words.split(', ')).toEqual([
      'length of element 1: 2500 mm',
      'turn of element 4: left',
      'an easement of 2 ft as element 5',
      'a straight of 500 mm as element 5',
      'radius of element 6: 5 ft',
      'elevation of grade line point 2: 3 in',
      'leave this chord out',
    ])
  })

  it('what the button posts is read again as it was', () => {
    const patch = [{ op: 'replace' as const, path: '/tracks/0/elements/0/length', value: '7\' 6-1/2"' }]
    const button = remedyButton(patch, 'both', 0).toString()
    expect(textOf(button)).toContain('Apply: length of element 1: 7\' 6-1/2"')
    expect(readRemedy(`remedy ${JSON.stringify(patch)}`)).toEqual(patch)
  })
})
