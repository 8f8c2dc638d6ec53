import { readSurvey } from '../../src/estimate/questions/read-survey.ts'
import type { SurveyAnswer } from '../../src/survey/answer.ts'
import { workOutSurvey } from '../../src/survey/survey.ts'

export interface SentSurvey {
  pegs: { name: string; x: number; y: number; elevation?: number }[]
  distances?: { from: string; to: string; length: number; slope?: boolean }[]
  levels?: { from: string; to: string; rise: number }[]
  lines?: { name: string; from: string; to?: string; readings: { length: number; rise: number }[] }[]
  points?: { name: string; side?: 'left' | 'right' }[]
  tapeError?: number
  levelError?: number
}

/** A survey worked out as the interface does it. */
export function workedOut(sent: SentSurvey): SurveyAnswer {
  const read = readSurvey(sent)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const result = workOutSurvey(read.input)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.answer
}

/** Its faults, each as its place and code. */
export function faultsIn(sent: unknown): string[] {
  const read = readSurvey(sent)
  const faults = read.ok ? workOutSurvey(read.input) : read
  return faults.ok ? [] : faults.faults.map(({ path, code }) => `/${path.join('/')} ${code}`)
}

export function pointIn(answer: SurveyAnswer, name: string): SurveyAnswer['points'][number] {
  const point = answer.points.find((each) => each.name === name)
  if (!point) throw new Error(`no point ${name}`)
  return point
}

/** Normal errors of size 1 (Box and Muller). */
export function normalFrom(chance: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance())
}

interface Mark {
  readonly name: string
  readonly x: number
  readonly y: number
  readonly z: number
}

/**
 * An invented garden: four pegs, some points among them, most distances, some along the slope, rises between neighbours,
 * and a line of stations; every reading with an error of its stated size.
 */
export function randomNet(chance: () => number, count: number, tapeError = 10, levelError = 2): SentSurvey {
  const normal = normalFrom(chance)
  const mark = (name: string, x: number, y: number): Mark => ({ name, x, y, z: 800 * chance() })
  const pegs = [
    mark('A', 0, 0),
    mark('B', 18_000 + 2_000 * chance(), 1_000 * chance()),
    mark('C', 17_000 + 2_000 * chance(), 13_000),
    mark('D', -500 * chance(), 12_000 + 2_000 * chance()),
  ]
  const points = Array.from({ length: count }, (_, index) =>
    mark(`P${index}`, 2_000 + 14_000 * chance(), 2_000 + 9_000 * chance()),
  )
  const marks = [...pegs, ...points]
  const distances = points.flatMap((point, index) =>
    [...pegs, ...points.slice(0, index)].flatMap((other, at) => {
      // Three pegs at least, so that the place is sure; most of the rest.
      if (at >= 3 && chance() < 0.4) return []
      const slope = chance() < 0.4
      const trueMm = Math.hypot(point.x - other.x, point.y - other.y, slope ? point.z - other.z : 0)
      const reading = { from: other.name, to: point.name, length: trueMm + tapeError * normal() }
      return [slope ? { ...reading, slope } : reading]
    }),
  )
  const levels = marks.slice(1).flatMap((to, index) => {
    const far = marks[Math.floor(chance() * (index + 1))]!
    const rise = (from: Mark) => ({ from: from.name, to: to.name, rise: to.z - from.z + levelError * normal() })
    return far === marks[index] ? [rise(marks[index]!)] : [rise(marks[index]!), rise(far)]
  })
  const [from, to] = [points[0]!, pegs[2]!]
  const readings = Array.from({ length: 5 }, () => ({
    length: 1219.2,
    rise: (to.z - from.z) / 5 + levelError * normal(),
  }))
  return {
    pegs: pegs.map(({ name, x, y, z }, index) => (index === 0 ? { name, x, y, elevation: z } : { name, x, y })),
    distances,
    levels,
    lines: [{ name: 'path', from: from.name, to: to.name, readings }],
    tapeError,
    levelError,
  }
}
