import { describe, expect, test } from 'vitest'
import { EXAMPLE_PLANS } from '../../src/api/example-plans.ts'
import { html } from '../../src/page/html.ts'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'
import { jobSheet } from '../../src/page/sheets/sheets.ts'
import { type AskedSheets, PRINTED_SHEETS } from '../../src/paper/papers.ts'
import type { Block } from '../../src/paper/pdf/blocks.ts'
import { papers } from '../../src/print/papers.ts'
import { blocksOf } from '../../src/print/sheet-blocks.ts'
import { spurPlan } from '../estimate/turnout-plans.ts'
import { contextOf } from '../page/all-sheets.ts'
import { POND_PLAN } from '../page/pond-plan.ts'
import { worked } from '../page/worked.ts'
import { pathsOfPages, textOfPages } from './reading-pdf.ts'

const ORIGIN = { plan: 'Demo', revision: 3, date: '2026-05-31' }

async function printed(plan: unknown, asked: Partial<AskedSheets> = {}): Promise<Uint8Array> {
  const file = await papers.sheets(worked(plan), { sheets: PRINTED_SHEETS, paper: 'a4', ...asked }, ORIGIN)
  if (!file.ok) throw new Error(JSON.stringify(file.fault))
  return file.pdf
}

const PLANS: [string, unknown][] = [
  ['the demo plan', DEMO_PLAN],
  ['the plan round the pond', POND_PLAN],
  ['a plan with a turnout', spurPlan()],
  ...Object.entries(EXAMPLE_PLANS).map(([name, { value }]): [string, unknown] => [name, value]),
]

/** All text of blocks, as it is printed. */
function textIn(blocks: readonly Block[]): string {
  const runs = (all: readonly { text: string }[]) => all.map(({ text }) => text).join('')
  return blocks
    .map((block): string => {
      switch (block.is) {
        case 'list':
          return block.items.map(textIn).join(' ')
        case 'cards':
          return block.cards.map(textIn).join(' ')
        case 'beside':
          return block.parts.map(textIn).join(' ')
        case 'table':
          return [block.caption, ...[...block.head, ...block.body, ...block.foot].flat().map((cell) => cell.runs)]
            .map(runs)
            .join(' ')
        case 'key':
          return block.entries.map((entry) => runs(entry.runs)).join(' ')
        case 'picture':
          return ''
        default:
          return runs(block.runs)
      }
    })
    .join(' ')
}

const words = (text: string) => text.split(/\s+/).filter((word) => word !== '')

describe('the sheets of a plan as PDF', () => {
  test.each(['a4', 'letter'] as const)('the demo plan takes ten pages of %s at most, in any units', async (paper) => {
    for (const units of [{}, { units: 'metric' }, { units: 'imperial' }]) {
      const pages = await textOfPages(await printed({ ...DEMO_PLAN, ...units }, { paper }))
      expect(pages.length).toBeLessThanOrEqual(10)
    }
  })

  test.each(PLANS)('%s: no page is empty, each has its number, and none is left over', async (_, plan) => {
    const pages = await textOfPages(await printed(plan))
    for (const [index, text] of pages.entries()) {
      expect(text).toContain(`${index + 1} of ${pages.length}`)
      expect(text).not.toMatch(/NaN|undefined|null|Infinity/)
    }
    // A page of text has some words; one with a drawing has its lines.
    const drawn = pathsOfPages(await printed(plan))
    for (const [index, text] of pages.entries()) expect(words(text).length + drawn[index]!.length).toBeGreaterThan(40)
  })

  test.each(PLANS)(
    '%s: every word of the sheets of the jobs is on paper, once for each time it is said',
    async (_, plan) => {
      const made = worked(plan)
      for (const sheet of ['shop', 'saw', 'bench', 'garden'] as const) {
        const said = words(textIn(blocksOf(jobSheet(sheet, contextOf(made, 'both')))))
        const found = words((await textOfPages(await printed(plan, { sheets: [sheet] }))).join(' '))
        const left = new Map<string, number>()
        for (const word of found) left.set(word, (left.get(word) ?? 0) + 1)
        const missing = said.filter((word) => {
          left.set(word, (left.get(word) ?? 0) - 1)
          return left.get(word)! < 0
        })
        // Names longer than a line are divided.
        expect(missing.filter((word) => word.length < 30)).toEqual([])
      }
    },
  )

  test('are in the units of the plan', async () => {
    const feet = (await textOfPages(await printed({ ...POND_PLAN, units: 'imperial' }))).join(' ')
    expect(feet).not.toMatch(/\d mm\b(?!: | chord|:? middle)/)
    expect(feet).toContain('1:96, 1/8 in to the foot')
    const metric = (await textOfPages(await printed({ ...POND_PLAN, units: 'metric' }))).join(' ')
    expect(metric).not.toMatch(/\d ft\b/)
  })

  test('have the cautions of each job', async () => {
    const text = (await textOfPages(await printed(POND_PLAN, { sheets: ['bench', 'saw'] }))).join(' ')
    expect(text).toContain('Bending: rail under load is a spring')
    expect(text).toContain('Cutting: wear eye and ear protection')
  })

  test('repeat the head of a table that goes on over the page', async () => {
    const elements = Array.from({ length: 140 }, (_, n) => ({ kind: 'tangent', length: 500, label: `row ${n}` }))
    const plan = { rail: POND_PLAN.rail, tracks: [{ name: 'main', elements }] }
    const pages = (await textOfPages(await printed(plan, { sheets: ['line'] }))).filter((text) => /row \d/.test(text))
    expect(pages.length).toBeGreaterThan(2)
    for (const text of pages) expect(text).toContain('# Kind From To Length Curve Left rail Right rail Remark')
    const rows = pages.flatMap((text) => text.match(/row \d+/g) ?? [])
    expect(rows).toEqual(elements.map(({ label }) => label))
  })

  test('have the bench cards in quarters of a page', async () => {
    const pages = pathsOfPages(await printed(POND_PLAN, { sheets: ['bench'] }))
    const cards = pages.map((page) =>
      page.flatMap(({ lines, widthMm }) => (Math.abs(widthMm - 0.6 * (25.4 / 72)) < 1e-3 ? lines : [])),
    )
    expect(Math.max(...cards.map(({ length }) => length))).toBe(4)
    // Half of the height of the page without its margins and foot, 297 − 2·11 − 14 pt, less the space between.
    const highMm = (297 - 22 - (14 + 8) * (25.4 / 72)) / 2
    for (const card of cards.flat()) {
      const ys = card.map(({ y }) => y)
      expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(highMm, 1)
    }
  })

  test('the same plan is the same file, byte for byte', async () => {
    expect(Buffer.from(await printed(POND_PLAN)).equals(Buffer.from(await printed(POND_PLAN)))).toBe(true)
  })
})

describe('the plan to a standard scale', () => {
  test('is 1:50 for the plan round the pond on A4, and the bar of 2 m is 40 mm', async () => {
    const pdf = await printed(POND_PLAN, { sheets: ['line'] })
    expect((await textOfPages(pdf))[0]).toContain('Plan, 1:50')
    const bars = pathsOfPages(pdf)[0]!.flatMap(({ lines }) => lines.filter((line) => line.length === 4))
    const widths = bars.map((line) => Math.abs(line[1]!.x - line[0]!.x))
    expect(Math.min(...widths.map((mm) => Math.abs(mm - 40)))).toBeLessThan(0.01)
  })

  test('takes as many pages as it needs at another scale, with a map of them', async () => {
    const pages = await textOfPages(await printed(POND_PLAN, { sheets: ['line'], scale: 20 }))
    expect(pages[0]).toContain('Map of the pages')
    const parts = pages.filter((text) => text.includes('Plan, part '))
    expect(parts.length).toBeGreaterThan(3)
    for (const [index, text] of parts.entries()) {
      expect(text).toContain(`Plan, part ${index + 1} of ${parts.length}, 1:20`)
      expect(text).toContain('Squares of')
      expect(text).toContain('North: draw it')
    }
  })

  test('a line of 10 km in true size is refused with how many pages it would take', async () => {
    const elements = Array.from({ length: 100 }, () => ({ kind: 'tangent', length: '100 m' }))
    const plan = worked({ rail: POND_PLAN.rail, tracks: [{ name: 'long', elements }] })
    const file = await papers.sheets(plan, { sheets: ['line'], paper: 'a4', scale: 1 }, ORIGIN)
    // Lengthways on A4: 10 km / (297 − 2·11 mm).
    expect(file).toMatchObject({
      ok: false,
      fault: {
        parameter: 'scale',
        detail: `at 1:1 the plan takes ${Math.ceil(1e7 / 275)} pages; at most 200 are allowed`,
      },
    })
  })
})

describe('markup on paper', () => {
  test('leaves out what only a screen can do, and what is folded away', () => {
    const said = textIn(
      blocksOf(html`<p>One <a href="/x">two</a></p><form><button>no</button></form><p class="no-print">no</p>
<details><summary>no</summary><p>no</p></details><details open><summary>three</summary><p>four</p></details>`),
    )
    expect(words(said)).toEqual(['One', 'two', 'three', 'four'])
  })

  test('an element that is not known stops the work', () => {
    expect(() => blocksOf(html`<marquee>x</marquee>`)).toThrow('paper knows no <marquee>')
  })

  test('names with whatever in them are printed', async () => {
    for (const title of ['<b>&"', 'x'.repeat(200), 'Ünïcödé ½ → ☃', '\u0001\n\t'])
      expect((await textOfPages(await printed({ ...POND_PLAN, title }))).length).toBeLessThanOrEqual(11)
  })
})

describe('sheets of the largest plans', () => {
  const arcs = (count: number) => ({
    rail: { section: '250', material: 'brass' },
    tracks: [
      {
        name: 'main',
        elements: Array.from({ length: count }, (_, n) => ({
          kind: 'arc',
          radius: 2500 + n,
          length: 300,
          turn: 'left',
        })),
      },
    ],
  })

  test('are refused before they are laid out, with what each has and what can be printed', async () => {
    const of = worked(arcs(2_900))
    const fault = async (...sheets: AskedSheets['sheets']) => {
      const file = await papers.sheets(of, { sheets, paper: 'a4' }, ORIGIN)
      return file.ok ? null : file.fault
    }
    // by hand: two rails to bend to a curve, and each drawn and listed once
    expect(await fault('shop', 'bench')).toMatchObject({
      parameter: 'for',
      code: 'out-of-range',
      detail: expect.stringMatching(/^there are \d+ rows and cards to print \(shop 4, bench \d{4}\); at most 6000/),
      hint: 'print fewer sheets at once: shop can be printed alone',
    })
    expect((await fault('bench'))!.hint).toContain('/v1/tables')
    expect(await fault('shop')).toBeNull()
  })
})
