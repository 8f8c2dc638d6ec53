import { expect, test } from 'vitest'
import { type Block, plain, type Row } from '../../src/paper/pdf/blocks.ts'
import { pdfOf } from '../../src/paper/pdf/pdf-of.ts'
import { textOfPages } from '../print/reading-pdf.ts'

const paragraph = (text: string): Block => ({ is: 'paragraph', runs: [plain(text)] })
const row = (text: string): Row => [{ runs: [plain(text)], columns: 1, rows: 1 }]
const heading: Block = { is: 'heading', level: 3, runs: [plain('Heading')] }
const table: Block = {
  is: 'table',
  caption: [],
  head: [row('Titles')],
  body: ['First', 'Second', 'Third', 'Fourth'].map(row),
  foot: [],
}
const picture: Block = {
  is: 'picture',
  picture: { title: null, description: null, box: { x: 0, y: 0, width: 400, height: 100 }, shapes: [] },
  unitMm: null,
}

/** The pages, in turn, of a document with 0, 1, 2 … lines above the blocks, until a page more than these lines take. */
async function pagesBelow(blocks: readonly Block[]): Promise<string[][]> {
  return Promise.all(
    Array.from({ length: 80 }, (_, lines) => {
      const above = Array.from({ length: lines }, (_, n) => paragraph(`Line ${n}`))
      const sections = [{ landscape: false, newPage: 'no' as const, blocks: [...above, ...blocks] }]
      return pdfOf({ title: 'Plan', paper: 'a4', date: '2026-05-31', foot: 'Foot', sections }).then(textOfPages)
    }),
  )
}

test.each([
  ['its table', [heading, table]],
  ['a few words and their table', [heading, paragraph('Facts'), table]],
  ['a few words and their tables beside each other', [heading, paragraph('Facts'), { is: 'beside', parts: [[table]] }]],
  ['a drawing and the table below it', [heading, picture, table]],
  ['a few words, a drawing and the table below it', [heading, paragraph('Facts'), picture, table]],
] satisfies [string, Block[]][])('a heading stays with %s, wherever on a page it comes', async (_, blocks) => {
  const all = await pagesBelow(blocks)
  expect(all.some((pages) => pages.length === 1)).toBe(true)
  expect(all.some((pages) => pages.length === 2)).toBe(true)
  for (const pages of all) {
    const page = pages.find((text) => text.includes('Heading'))!
    for (const word of ['Titles', 'First', 'Second']) expect(page).toContain(word)
    if (blocks.some(({ is }) => is === 'paragraph')) expect(page).toContain('Facts')
  }
})
