import { describe, expect, test } from 'vitest'
import { readSurveyForm, surveyFieldsOf } from '../../src/page/survey/read-survey-form.ts'
import { surveyDrawing } from '../../src/page/survey/survey-drawing.ts'
import { SURVEY_EXAMPLE } from '../../src/page/survey/survey-example.ts'
import { surveyPage } from '../../src/page/survey/survey-page.ts'
import { workOutSurvey } from '../../src/survey/survey.ts'
import { workedOut } from '../survey/nets.ts'
import { nestingFault, textOf } from './markup.ts'

const shown = (typed: Record<string, string>, lengthsIn: 'metric' | 'feet' = 'metric') =>
  surveyPage(surveyFieldsOf(new Map(Object.entries(typed))), lengthsIn, workOutSurvey)

describe('the page for surveys', () => {
  test('blank: the form alone, without a fault', () => {
    const { main, complete } = shown({})
    expect(complete).toBe(true)
    expect(nestingFault(main.toString())).toBeNull()
    expect(main.toString()).not.toContain('id="answer"')
  })

  test('the example: places, elevations, lines and readings', () => {
    const { main, complete } = surveyPage(SURVEY_EXAMPLE, 'metric', workOutSurvey)
    expect(complete).toBe(true)
    expect(nestingFault(main.toString())).toBeNull()
    const text = textOf(main.toString())
    expect(text).toContain('3 points of 3 placed.')
    expect(text).toContain('The readings agree')
    expect(text).toContain('4 readings more than needed')
    // By hand: 5205 mm from the house is what the apple tree was measured by.
    for (const part of ['apple tree', 'pond', 'terrace', '5.205 m', 'nothing checks it', 'along the path'])
      expect(text).toContain(part)
    expect(text).toContain('tape error 10 mm')
    const inFeet = textOf(surveyPage(SURVEY_EXAMPLE, 'feet', workOutSurvey).main.toString())
    expect(inFeet).not.toMatch(/\d mm\b(?! a)/)
  })

  test('the same survey as JSON gives the same answer', () => {
    const read = readSurveyForm(SURVEY_EXAMPLE)
    if (!read.ok) throw new Error('it can be read')
    const result = workOutSurvey(read.input)
    expect(result.ok && result.answer.points.map(({ name }) => name)).toEqual(['apple tree', 'pond', 'terrace'])
    expect(read.input.lines![0]!.readings).toHaveLength(6)
    expect(read.input.distances![6]).toEqual({ from: 'house', to: 'terrace', length: 6995, slope: true })
  })

  test('every fault at its line, those of fields and those between them', () => {
    const { main, complete } = shown({
      pegs: 'A, 0, 0\n\nB, east, 0\nC, 1, 2, 3, 4',
      distances: 'A, P, 12 ells\nP, P, 3',
      lines: '4 ft, 3\npath: A\n4 ft',
      levelError: 'little',
    })
    expect(complete).toBe(false)
    const text = textOf(main.toString())
    for (const part of [
      'Pegs, line 3',
      'Pegs, line 4',
      'Distances, line 1',
      'Distances, line 2',
      'Lines of stations, line 1',
      'Lines of stations, line 3',
      'Level error',
    ])
      expect(text).toContain(part)
    expect(text).toContain('7 problems to fix')
    expect(nestingFault(main.toString())).toBeNull()
    // What was typed stays.
    expect(main.toString()).toContain('A, P, 12 ells')
  })

  test('circles that do not meet are shown at the line of the distance', () => {
    const { main, complete } = shown({ pegs: 'A, 0, 0\nB, 9000, 0', distances: 'A, P, 1 m\n\nB, P, 2 m' })
    expect(complete).toBe(false)
    expect(textOf(main.toString())).toContain('Distances, line 3')
  })

  test('a suspect reading is named and marked', () => {
    const typed = {
      pegs: 'A, 0, 0\nB, 8 m, 0\nC, 0, 6 m\nD, 9 m, 7 m',
      distances: 'A, P, 5000\nB, P, 6660\nC, P, 3606\nD, P, 6708',
    }
    const html = shown(typed).main.toString()
    expect(textOf(html)).toContain('from B to P')
    expect(html).toContain('class="tape suspect"')
    expect(textOf(html)).toContain('suspect reading')
  })

  test('names are text, never markup', () => {
    const html = shown({ pegs: '<b>A</b>, 0, 0, 0\nB, 9000, 0', levels: '<b>A</b>, <i>x</i>, 5' }).main.toString()
    expect(html).not.toContain('<i>x</i>')
    expect(textOf(html)).toContain('<i>x</i>')
  })
})

describe('the drawing', () => {
  test('has every peg and point, and ellipses at a round magnification', () => {
    const answer = workedOut({
      pegs: [
        { name: 'A', x: 0, y: 0 },
        { name: 'B', x: 5000, y: 0 },
      ],
      distances: [
        { from: 'A', to: 'P', length: 3000 },
        { from: 'B', to: 'P', length: 4000 },
      ],
      points: [{ name: 'P', side: 'left' }],
    })
    const svg = surveyDrawing(answer, 'metric')!.toString()
    expect(nestingFault(svg, true)).toBeNull()
    expect(svg.match(/class="peg-mark"/g)).toHaveLength(2)
    expect(svg.match(/class="tape"/g)).toHaveLength(2)
    // By hand: equal half axes of 10 mm, at the scale of (880 − 2·64)/5000 to the millimetre.
    const [, rx, ry] = /<ellipse [^>]*rx="([\d.]+)" ry="([\d.]+)"/.exec(svg)!
    const times = Number(/Errors drawn (\d+) times/.exec(svg)![1])
    expect(Number(rx)).toBeCloseTo(10 * 0.1504 * times, 2)
    expect(ry).toBe(rx)
    expect(Number(rx)).toBeLessThanOrEqual(26)
  })

  test('of one peg alone', () => {
    expect(
      nestingFault(surveyDrawing(workedOut({ pegs: [{ name: 'A', x: 3, y: 4 }] }), 'both')!.toString(), true),
    ).toBeNull()
  })
})
