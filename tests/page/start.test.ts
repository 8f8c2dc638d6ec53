import { describe, expect, test } from 'vitest'
import { textOf } from './markup.ts'
import { changed, visiting } from './visiting.ts'

const { get, post } = visiting()

const start = (fields: readonly (readonly [string, string])[]) =>
  get(`/new?${new URLSearchParams(fields.map(([name, text]): [string, string] => [name, text]))}`)

const SIX = [
  ['section', '215'],
  ['material', 'stainless'],
  ['stick', '6 ft'],
  ['curve', '22 ft'],
  ['curve', '20 ft'],
  ['curve', ''],
] as const

describe('a plan started with six fields', () => {
  test('has them in its form, offers the sizes, and says what the curves take', async () => {
    const { status, markup, text, fields } = await start(SIX)
    expect(status).toBe(200)
    expect(fields.get('rail.section')).toBe('215')
    expect(fields.get('rail.material')).toBe('stainless')
    expect(fields.get('supplies.sticks.0.length')).toBe('6 ft')
    for (const size of ['22 ft', '20 ft']) expect(markup).toContain(`<option value="${size}"></option>`)
    // Closed form: both rails of a circle of 11 ft radius are 2π · 2 · 3352.8 mm = 42.13 m, 23.04 sticks of 6 ft.
    expect(text).toContain('42.1 m, at least 24 sticks')
    // Of 10 ft: 38.30 m, 20.94 sticks.
    expect(text).toContain('38.3 m, at least 21 sticks')
    // Code 215 has a head of about 3 mm: R − s/2 of the inner rail and √ give 9.4 mm over 500 mm, R = 3352.8 mm: 500²/8R = 9.32.
    expect(text).toMatch(/9\.[23]\d mm .*and 9\.[34]\d? mm .*over 500 mm/)
  })

  test('goes on with the sizes, and with those that its curves have', async () => {
    const { fields } = await start(SIX)
    const { markup } = await post(
      '/',
      changed(fields, { 'tracks.0.elements.0.kind': 'arc', 'tracks.0.elements.0.across': '19 ft', do: 'work' }),
    )
    for (const size of ['22 ft', '20 ft', '19 ft']) expect(markup).toContain(`<option value="${size}"></option>`)
  })

  test('says what is wrong with a size, and still begins', async () => {
    const { status, text, fields } = await start([
      ['curve', '2 parsecs'],
      ['curve', '4 mm'],
      ['stick', '3 parsecs'],
    ])
    expect(status).toBe(200)
    expect(text).toContain('2 parsecs')
    expect(text).toMatch(/4 mm .*(?:radius|diameter)/)
    expect(fields.get('supplies.sticks.0.length')).toBe('3 parsecs')
    expect(fields.get('rail.section')).toBe('250')
  })

  test('a bare number is in the units of the page', async () => {
    const inches = await start([
      ['show', 'feet'],
      ['stick', '72'],
      ['curve', '240'],
    ])
    expect(inches.fields.get('supplies.sticks.0.length')).toBe('72 in')
    expect(inches.text).toContain('at least 21 sticks')
    const millimetres = await start([
      ['stick', '1828.8'],
      ['curve', '6096'],
    ])
    expect(millimetres.text).toContain('at least 21 sticks')
  })

  test('without sizes is a blank plan', async () => {
    const { markup, fields } = await get('/new')
    expect(textOf(markup)).not.toContain('Bending your curves')
    expect(markup).not.toContain('curve-sizes')
    expect(fields.get('tracks.0.elements.0.kind')).toBe('')
    expect(fields.get('supplies.sticks.0.length')).toBe('')
  })
})
