import { describe, expect, it } from 'vitest'
import {
  EXAMPLE_CALIBRATIONS,
  EXAMPLE_CHECKS,
  EXAMPLE_COMPARISONS,
  EXAMPLE_CURVES,
  EXAMPLE_CUT_PLANS,
  EXAMPLE_FIGURES,
  EXAMPLE_FITS,
  EXAMPLE_MOVES,
  EXAMPLE_PLANS,
  EXAMPLE_SETTING_OUTS,
  EXAMPLE_SURVEYS,
} from '../../src/api/example-plans.ts'
import { appWithoutStore, asking, planWith, trackOf } from './asking.ts'

const { ask } = asking(appWithoutStore())

/** Numbers of a text with more than 13 digits; those in quotes are dates and sentences. */
function longNumbers(text: string): string[] {
  const numbers = text.replaceAll(/"(?:[^"\\]|\\.)*"/g, '').match(/-?\d+(?:\.\d+)?/g) ?? []
  return numbers.filter((number) => number.replace(/^-?0*\.?0*|\D/g, '').length > 13)
}

const QUESTIONS = {
  '/v1/estimates': EXAMPLE_PLANS,
  '/v1/comparisons': EXAMPLE_COMPARISONS,
  '/v1/setting-outs': EXAMPLE_SETTING_OUTS,
  '/v1/figures': EXAMPLE_FIGURES,
  '/v1/surveys': EXAMPLE_SURVEYS,
  '/v1/cut-plans': EXAMPLE_CUT_PLANS,
  '/v1/fits': EXAMPLE_FITS,
  '/v1/moves': EXAMPLE_MOVES,
  '/v1/bends': EXAMPLE_CURVES,
  '/v1/bend-checks': EXAMPLE_CHECKS,
  '/v1/bend-calibrations': EXAMPLE_CALIBRATIONS,
}

describe('no answer has more than 13 digits in a number', () => {
  const all = Object.entries(QUESTIONS).flatMap(([path, examples]) =>
    Object.entries(examples).map(([name, { value }]) => [path, name, value] as const),
  )
  it.each(all)('%s: %s', async (path, _, json) => {
    const { status, text } = await ask(path, { method: 'POST', json })
    expect(status).toBe(200)
    expect(longNumbers(text)).toEqual([])
  })

  it.each([
    'bends?radius=7.77ft&material=brass&temper=half-hard',
    'bends.csv?radius=7.77ft&material=brass&temper=half-hard&units=in',
    'cell/mid-ordinate?radius=7.77ft&chord=11in&units=in',
  ])('/v1/%s', async (path) => {
    const { status, text } = await ask(`/v1/${path}`)
    expect([status, longNumbers(text)]).toEqual([200, []])
  })

  it.each(['elements', 'joints', 'bends', 'cut-list'])('the table %s in inches', async (table) => {
    const answer = await ask(`/v1/tables/${table}.csv?units=in`, {
      method: 'POST',
      json: EXAMPLE_PLANS['footbridge-line']!.value,
    })
    expect([answer.status, longNumbers(answer.text)]).toEqual([200, []])
  })
})

it('a length in inches is answered in inches as it was typed', async () => {
  // by hand: 30 in, which 762 mm / 25.4 gives as 29.999999999999996
  const json = planWith({ tracks: [trackOf({ kind: 'tangent', length: '30 in' })] })
  const { text } = await ask('/v1/tables/elements.json?units=in', { method: 'POST', json })
  expect(JSON.parse(text)[0].lengthIn).toBe(30)
})
