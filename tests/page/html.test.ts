import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { attributes, escapeText, html } from '../../src/page/html.ts'
import { tagsOf } from './markup.ts'

describe('templates', () => {
  test('escape text, pass markup, leave out what is nothing', () => {
    const inner = html`<b>${'a & b'}</b>`
    expect(html`<p title="${'say "x"'}">${inner}${null}${undefined}${false}${0}${['<', inner]}</p>`.text).toBe(
      '<p title="say &quot;x&quot;"><b>a &amp; b</b>0&lt;<b>a &amp; b</b></p>',
    )
  })

  test('any text comes back as it was, in an attribute and between tags', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const [tag] = tagsOf(html`<i title="${text}">${text}</i>`.text)
        expect(tag?.attributes.get('title')).toBe(text)
        expect(tag?.text).toBe(text)
      }),
    )
  })

  test('escaped text has no sign that begins or ends anything', () => {
    fc.assert(fc.property(fc.string(), (text) => !/[<>"']/.test(escapeText(text))))
  })

  test('attributes: true stands alone, false and null are left out', () => {
    expect(attributes({ id: 'a"b', open: true, hidden: false, title: null, size: 3 }).text).toBe(
      ' id="a&quot;b" open size="3"',
    )
  })
})
