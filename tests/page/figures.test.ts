import { describe, expect, test } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { FIGURE_WORDS } from '../../src/plan/rows/figures.ts'
import { visiting } from './visiting.ts'

const visit = visiting()
const post = (fields: Readonly<Record<string, string>>) => visit.post('/', Object.entries(fields))

const FIELDS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'passing-loop': { spacing: '200', clear: '1500' },
  crossover: { spacing: '250' },
  ladder: { spacing: '200', count: '3', clear: '3000', side: 'right' },
  'reverse-loop': { across: '3 m', acrossIs: 'diameter' },
  wye: { across: '1.5 m', acrossIs: 'radius', side: 'right' },
  parallel: { spacing: '180' },
  junction: { spacing: '250', angle: '60', across: '1.5 m', acrossIs: 'radius' },
}

const STRAIGHT = {
  'rail.section': '250',
  'rail.material': 'brass',
  'tracks.0.name': 'main',
  'tracks.0.elements.0.kind': 'tangent',
  'tracks.0.elements.0.length': '12 m',
  'tracks.0.elements.1.kind': 'arc',
  'tracks.0.elements.1.across': '6 m',
  'tracks.0.elements.1.acrossIs': 'diameter',
  'tracks.0.elements.1.angle': '90',
  'tracks.0.elements.1.turn': 'left',
}

function fieldsFor(figure: string, more: Readonly<Record<string, string>> = {}): Record<string, string> {
  const own = Object.entries(FIELDS[figure]!).map(([name, text]) => [`figure.${figure}.${name}`, text])
  const where = figure === 'reverse-loop' ? 'end' : 'within'
  return {
    ...STRAIGHT,
    'figure.track': '0',
    'figure.where': where,
    'figure.number': '6',
    ...Object.fromEntries(own),
    ...more,
  }
}

describe.each(Object.keys(FIGURE_WORDS))('a %s on the page', (figure) => {
  test('is shown before it is put in, and the plan with it is sound', async () => {
    const shown = await post({ ...fieldsFor(figure), do: `figure show ${figure}` })
    expect(shown.status).toBe(200)
    expect(shown.markup).toContain('id="figure-title"')
    expect(shown.text).toContain('Add it to the plan')
    expect(shown.fields.get('tracks.0.elements.0.length')).toBe('12 m')

    const put = await post({ ...Object.fromEntries(shown.fields), do: `figure put ${figure}` })
    expect(put.status).toBe(200)
    expect(put.markup).not.toContain('id="figure-title"')
    const again = await post({ ...Object.fromEntries(put.fields), do: 'work' })
    expect(again.status).toBe(200)
    const tracks = [...put.fields].filter(([name, text]) => /^tracks\.\d+\.name$/.test(name) && text !== '')
    expect(tracks.length).toBeGreaterThan(1)
  })
})

/** After a reverse loop the track has no end any more. */
const REPEATED = Object.keys(FIGURE_WORDS).filter((figure) => figure !== 'reverse-loop')

describe.each(REPEATED)('a second %s', (figure) => {
  test('is put in under other names', async () => {
    const once = await post({ ...fieldsFor(figure), do: `figure put ${figure}` })
    const where: Record<string, string> =
      figure === 'parallel' ? { 'figure.parallel.side': 'right' } : { 'figure.where': 'end' }
    const own = Object.fromEntries(Object.entries(fieldsFor(figure)).filter(([name]) => name.startsWith('figure.')))
    const twice = await post({
      ...Object.fromEntries(once.fields),
      ...own,
      ...where,
      do: `figure put ${figure}`,
    })
    const names = [...twice.fields].flatMap(([name, text]) => (/\.name$/.test(name) && text !== '' ? [text] : []))
    // A crossing stands on both of its tracks.
    const plain = names.filter((name) => !name.includes('X'))
    expect(new Set(plain).size).toBe(plain.length)
    expect(names.some((name) => name.startsWith('2-'))).toBe(true)
    expect(twice.status).toBe(200)
  })
})

describe('a figure in a straight', () => {
  test('leaves everything else where it was, to a millionth of a millimetre', async () => {
    const before = await post({ ...STRAIGHT, name: 'Straight', do: 'save' })
    const put = await post({ ...fieldsFor('passing-loop'), do: 'figure put passing-loop' })
    const after = await post({ ...Object.fromEntries(put.fields), name: 'Siding', do: 'save' })
    const estimateOf = async (location: string | null) =>
      (await (await visit.ask(`/v1/projects/${location!.split('/')[2]}/estimate`)).json()) as Estimate
    const [one, other] = [
      await estimateOf(before.headers.get('location')),
      await estimateOf(after.headers.get('location')),
    ]
    expect(other.tracks[0]!.end.xMm).toBeCloseTo(one.tracks[0]!.end.xMm, 6)
    expect(other.tracks[0]!.end.yMm).toBeCloseTo(one.tracks[0]!.end.yMm, 6)
    expect(other.tracks[1]!.closure!.gapMm).toBeLessThan(1e-6)
    expect(other.bill.lines.filter(({ item }) => item === 'turnout').map(({ toBuy }) => toBuy)).toEqual([1, 1])
  })
})

describe('a figure that cannot be put in', () => {
  const refusalOf = async (figure: string, more: Readonly<Record<string, string>>) => {
    const page = await post({ ...fieldsFor(figure, more), do: `figure show ${figure}` })
    expect(page.status).toBe(422)
    expect(page.markup).not.toContain('id="figure-title"')
    return page.text
  }

  test('is refused with its reason, at its fields', async () => {
    expect(await refusalOf('passing-loop', { 'figure.passing-loop.spacing': '100' })).toContain('Use a spacing of')
    expect(await refusalOf('passing-loop', { 'figure.passing-loop.clear': '' })).toContain(
      'A passing loop needs its clear length',
    )
    expect(await refusalOf('passing-loop', { 'figure.passing-loop.clear': '12 m' })).toContain(
      'The straight is 12000 mm long',
    )
    expect(await refusalOf('passing-loop', { 'figure.element': '2' })).toContain('Element 2 is not a straight')
    expect(await refusalOf('passing-loop', { 'figure.element': '9' })).toContain('The track has 2 elements')
    expect(await refusalOf('passing-loop', { 'figure.track': '4' })).toContain('There is no such track')
    expect(await refusalOf('passing-loop', { 'figure.number': 'six' })).toContain('Frog number')
    expect(await refusalOf('reverse-loop', { 'figure.where': 'within' })).toContain('nothing can follow it')
  })

  test('is not looked at while the plan itself has faults, which are shown', async () => {
    const page = await post({
      ...fieldsFor('crossover'),
      'tracks.0.elements.0.length': 'long',
      do: 'figure show crossover',
    })
    expect(page.status).toBe(422)
    expect(page.text).toContain('1 problem to fix')
    expect(page.fields.get('figure.crossover.spacing')).toBe('250')
  })

  test('an unknown button of figures is taken as Calculate', async () => {
    expect((await post({ ...STRAIGHT, do: 'figure show nonsense' })).status).toBe(200)
  })
})

test('on a page in feet a bare number is inches', async () => {
  const fields = {
    ...fieldsFor('passing-loop'),
    show: 'feet',
    shownIn: 'feet',
    'figure.passing-loop.spacing': '8',
    'figure.passing-loop.clear': '60',
  }
  const page = await post({ ...fields, do: 'figure show passing-loop' })
  expect(page.status).toBe(200)
  expect(page.text).toContain('clear length of the siding: 5 ft')
  expect(page.fields.get('figure.passing-loop.spacing')).toBe('8 in')
})
