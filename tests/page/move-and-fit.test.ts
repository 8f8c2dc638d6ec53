import { describe, expect, it } from 'vitest'
import { changed, visiting } from './visiting.ts'

const page = visiting()
const RAIL = { section: '250', material: 'brass', temper: 'half-hard' }
const SPUR = {
  rail: RAIL,
  tracks: [
    { name: 'main', elements: [{ kind: 'tangent', length: '4 m' }] },
    { name: 'spur', start: { after: 'main' }, elements: [{ kind: 'arc', radius: 2000, angle: 60, turn: 'left' }] },
  ],
}

describe('moving a track on the page', () => {
  it('takes what was typed beside its start, in the units of the page', async () => {
    const { id } = await page.store().create({ name: 'Spur', notes: '', plan: SPUR })
    const before = await page.get(`/plans/${id}?edit`)
    const typed = { 'move.0.y': '80', do: 'move tracks.0' }
    const after = await page.post(`/plans/${id}`, changed(before.fields, typed))
    expect(after.status).toBe(200)
    expect(after.fields.get('tracks.0.start.y')).toBe('0.08 m')
    const inFeet = await page.get(`/plans/${id}?edit&show=feet`)
    const inches = await page.post(`/plans/${id}`, changed(inFeet.fields, { 'move.0.x': '10', do: 'move tracks.0' }))
    expect(inches.fields.get('tracks.0.start.x')).toBe('0.254 m')
    expect((await page.store().get(id))!.plan).toEqual(SPUR)
  })

  it('is refused at the start of a track that continues from another, and for what is no length', async () => {
    const { id } = await page.store().create({ name: 'Spur', notes: '', plan: SPUR })
    const { fields } = await page.get(`/plans/${id}?edit`)
    const bound = await page.post(`/plans/${id}`, changed(fields, { 'move.1.y': '80', do: 'move tracks.1' }))
    expect(bound.status).toBe(422)
    expect(bound.text).toContain('lies where that lies')
    const far = await page.post(`/plans/${id}`, changed(fields, { 'move.0.y': 'far', do: 'move tracks.0' }))
    expect(far.status).toBe(422)
    expect(far.text).toContain('track 1, start position, y')
    const none = await page.post(`/plans/${id}`, changed(fields, { do: 'move tracks.7' }))
    expect(none.status).toBe(200)
    expect(none.fields.get('tracks.0.start.y')).toBe('')
  })
})

describe('fits on the page', () => {
  const six = { id: 'six', hand: 'left', number: 6, form: 'straight-frog', onHand: 1 }
  const siding = {
    name: 'siding',
    start: { x: 1000, y: 0 },
    end: { at: { x: 7000, y: 2500, heading: 30 } },
    elements: [{ kind: 'connect', minimumRadius: 1500 }],
  }
  const main = { name: 'main', elements: [{ kind: 'tangent', length: 8000 }] }

  it('lists the ways to put in turnouts on hand, each with a button that does it', async () => {
    const plan = { rail: RAIL, turnoutTypes: [six], tracks: [main, siding] }
    const { id } = await page.store().create({ name: 'Siding', notes: '', plan })
    const before = await page.get(`/plans/${id}?edit`)
    expect(before.text).toContain('Put turnouts on hand in where it leaves other tracks')
    const listed = await page.post(`/plans/${id}`, changed(before.fields, { do: 'turnouts-at-ends' }))
    expect(listed.text).toMatch(/six at \d/)
    const [, patch] = /value="(remedy [^"]*)">Put this in</.exec(listed.markup) ?? []
    const put = await page.post(`/plans/${id}`, changed(listed.fields, { do: patch!.replaceAll('&quot;', '"') }))
    expect(put.status).toBe(200)
    const { tracks } = JSON.parse(put.fields.get('whole')!)
    expect(tracks[0].elements[1].kind).toBe('turnout')
    expect(tracks[1].start.from.turnout).toBe('T1')
  })

  it('leave a curve size open in the row of an element, as radius or as diameter', async () => {
    const bend = { kind: 'arc', diameter: 'fit', angle: 'fit', turn: 'left' }
    const open = { kind: 'tangent', length: 'fit' }
    const track = { name: 'corner', end: { at: { x: 2900, y: 4100, heading: 90 } }, elements: [open, bend, open] }
    const { id } = await page.store().create({ name: 'Corner', notes: '', plan: { rail: RAIL, tracks: [track] } })
    const shown = await page.get(`/plans/${id}?edit`)
    expect(shown.fields.get('tracks.0.elements.1.across')).toBe('fit')
    const again = await page.post(`/plans/${id}`, changed(shown.fields, { do: 'work', show: 'metric' }))
    expect(again.status).toBe(200)
    expect(again.text).toContain('radius 2899 mm')
  })
})
