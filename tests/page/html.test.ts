import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { attributes, type Content, html } from '../../src/page/html.ts'
import { tagsOf } from './markup.ts'

describe('templates', () => {
  test('escape text, pass markup, leave out what is nothing', () => {
    const inner = html`<b>${'a & b'}</b>`
    expect(html`<p title="${'say "x"'}">${inner}${null}${undefined}${false}${0}${['<', inner]}</p>`.toString()).toBe(
      '<p title="say &quot;x&quot;"><b>a &amp; b</b>0&lt;<b>a &amp; b</b></p>',
    )
  })

  test('any text comes back as it was, in an attribute and between tags', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const [tag] = tagsOf(html`<i title="${text}">${text}</i>`.toString())
        expect(tag?.attributes.get('title')).toBe(text)
        expect(tag?.text).toBe(text)
      }),
    )
  })

  test('escaped text has no sign that begins or ends anything', () => {
    fc.assert(fc.property(fc.string(), (text) => !/[<>"']/.test(String(html`${text}`))))
  })

  /* What a page would be without the library: each sign by itself, values in their order. */
  test('hostile values, in lists and in each other, are escaped once', () => {
    const signs: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' }
    const escaped = (text: string) => [...text].map((sign) => signs[sign] ?? sign).join('')
    const hostile = fc.constantFrom(
      '<script>',
      '</p>',
      '"><img src=x onerror=alert(1)>',
      "' onload='",
      '&lt;',
      '-->',
      '\0',
      ',',
    )
    const text = fc.oneof(hostile, fc.string({ unit: 'binary' }))
    const { content } = fc.letrec<{ content: { value: Content; markup: string } }>((tie) => ({
      content: fc.oneof(
        { maxDepth: 3 },
        text.map((value) => ({ value, markup: escaped(value) })),
        fc.double().map((value) => ({ value, markup: String(value) })),
        fc.constantFrom(null, undefined, false as const).map((value) => ({ value, markup: '' })),
        fc.array(tie('content'), { maxLength: 4 }).map((all) => ({
          value: all.map(({ value }) => value),
          markup: all.map(({ markup }) => markup).join(''),
        })),
        tie('content').map(({ value, markup }) => ({ value: html`<b>${value}</b>`, markup: `<b>${markup}</b>` })),
        text.map((value) => ({
          value: html`<i${attributes({ title: value })}>`,
          markup: `<i title="${escaped(value)}">`,
        })),
      ),
    }))
    fc.assert(
      fc.property(content, ({ value, markup }) => {
        expect(String(html`<p title="${value}">${value}</p>`)).toBe(`<p title="${markup}">${markup}</p>`)
      }),
      { numRuns: 2_000 },
    )
  })

  test('attributes: true stands alone, false and null are left out', () => {
    expect(attributes({ id: 'a"b', open: true, hidden: false, title: null, size: 3 }).toString()).toBe(
      ' id="a&quot;b" open size="3"',
    )
  })
})
