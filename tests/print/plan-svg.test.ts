import { SaxesParser } from 'saxes'
import { describe, expect, test } from 'vitest'
import { planSvg, profileSvg } from '../../src/print/plan-svg.ts'
import { spurPlan } from '../estimate/turnout-plans.ts'
import { textOf } from '../page/markup.ts'
import { POND_PLAN } from '../page/pond-plan.ts'
import { worked } from '../page/worked.ts'

/** The tags of a document with their attributes, by a parser that refuses what is not XML. */
function tagsIn(xml: string) {
  const tags: { name: string; attributes: Record<string, string> }[] = []
  const parser = new SaxesParser()
  parser.on('error', (error) => {
    throw error
  })
  parser.on('opentag', ({ name, attributes }) => tags.push({ name, attributes: attributes as Record<string, string> }))
  parser.write(xml).close()
  return tags
}

const plan = (more: object = {}) => ({
  rail: { section: '250', material: 'brass' },
  tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: '10 ft' }] }],
  ...more,
})

describe('a plan as SVG', () => {
  const drawing = planSvg(worked(POND_PLAN))

  test('stands alone: no style sheet, no class, nothing from elsewhere, everything with its own look', () => {
    const tags = tagsIn(drawing)
    expect(tags[0]).toMatchObject({ name: 'svg', attributes: { xmlns: 'http://www.w3.org/2000/svg' } })
    expect(tags[0]!.attributes.width).toMatch(/^[\d.]+mm$/)
    for (const { name, attributes } of tags) {
      expect(['style', 'script', 'image', 'use', 'a']).not.toContain(name)
      for (const key of ['class', 'style', 'href', 'id']) expect(attributes).not.toHaveProperty(key)
      if (['path', 'rect', 'circle', 'text'].includes(name)) expect(attributes.fill).toMatch(/^(none|#[0-9a-f]{3,6})$/)
      expect(JSON.stringify(attributes)).not.toMatch(/NaN|undefined|var\(|url\(/)
    }
  })

  test('has nothing that can only be tapped, and an obstacle as light as on the screen', () => {
    const obstacles = [{ name: 'rock', circle: { x: 0, y: 9000, radius: 400 } }]
    const paths = tagsIn(planSvg(worked({ ...POND_PLAN, obstacles }))).filter(({ name }) => name === 'path')
    for (const { attributes } of paths) expect(attributes.stroke ?? 'none').toMatch(/^(none|#[0-9a-f]{3,6})$/)
    expect(paths.filter(({ attributes }) => attributes.stroke === undefined && attributes.fill === 'none')).toEqual([])
    expect(paths.filter(({ attributes }) => attributes.opacity === '0.14')).toHaveLength(1)
  })

  test('has names, radii, stations, the grid and a scale bar', () => {
    const text = textOf(drawing.replace(/^<\?xml[^>]*>/, ''))
    for (const word of [
      'Start of pond loop',
      'Start of terrace line',
      'R 1524 mm (5 ft)',
      '8 m',
      'Squares of 2 m',
      '10 ft',
    ])
      expect(text).toContain(word)
  })

  test('the bars of the scale are as long as the drawing has them', () => {
    // 2 m and 10 ft = 3048 mm (exact): bars and rails share one scale.
    const bars = tagsIn(drawing).filter(({ name, attributes }) => name === 'rect' && attributes.height === '6')
    const [metric, feet] = bars.map(({ attributes }) => Number(attributes.width))
    expect(feet! / metric!).toBeCloseTo(3048 / 2000, 3)
  })

  test('is in the units of the plan', () => {
    const text = (units: object) => textOf(planSvg(worked(plan(units))).replace(/^<\?xml[^>]*>/, ''))
    expect(text({ units: 'imperial' })).not.toMatch(/\d m\b/)
    expect(text({ units: 'imperial' })).toContain('2 ft')
    expect(text({ units: 'metric' })).not.toContain('ft')
  })

  test('names turnouts', () => {
    expect(planSvg(worked(spurPlan()))).toMatch(/<text [^>]*>W1<\/text>/)
  })

  test('a title that is markup is text, and what XML cannot hold is replaced', () => {
    const hard = planSvg(worked(plan({ title: '<script>&"\u0001' })))
    expect(tagsIn(hard).map(({ name }) => name)).not.toContain('script')
    expect(hard).toContain('&lt;script&gt;')
  })
})

describe('profiles as SVG', () => {
  test('of every track, one below the other; a level one in words', () => {
    const drawing = profileSvg(worked(POND_PLAN))
    const text = textOf(drawing.replace(/^<\?xml[^>]*>/, ''))
    expect(text).toMatch(/pond loop: level throughout, at 0 mm .*terrace line .*2\.22 % .*Heights exaggerated 8 times/)
    const places = tagsIn(drawing).flatMap(({ attributes }) => attributes.transform ?? [])
    expect(places).toEqual(['translate(0 32)', 'translate(0 64)'])
  })
})
