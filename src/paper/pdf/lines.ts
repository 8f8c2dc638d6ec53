import type { Run } from './blocks.ts'
import type { Pen } from './pen.ts'

/** A line of text: runs and where each begins. */
export interface Line {
  readonly widthPt: number
  readonly parts: readonly { readonly run: Run; readonly x: number }[]
}

/** Measures text. */
export type Measure = Pick<Pen, 'widthOf'>

/** What rounding makes of a width that fits exactly. */
const SLACK_PT = 0.01

/** Text broken into lines at its spaces; a word that is wider than a line is broken within. */
export function linesOf(pen: Measure, runs: readonly Run[], size: number, widthPt: number): Line[] {
  const lines: Line[] = []
  let line = new OpenLine(pen, size)
  for (const word of wordsOf(runs)) {
    if (word === 'break') {
      lines.push(line.closed())
      line = new OpenLine(pen, size)
      continue
    }
    for (const part of fitting(pen, word, size, widthPt)) {
      if (line.isEmpty || line.widthWith(part) <= widthPt + SLACK_PT) line.add(part)
      else {
        lines.push(line.closed())
        line = new OpenLine(pen, size)
        line.add(part)
      }
    }
  }
  return line.isEmpty && lines.length > 0 ? lines : [...lines, line.closed()]
}

/** How wide the widest word is, and all of the text in one line. */
export function extentOf(pen: Measure, runs: readonly Run[], size: number): { least: number; most: number } {
  const words = wordsOf(runs).filter((word) => word !== 'break')
  const width = (word: Word) => word.reduce((sum, { text, bold }) => sum + pen.widthOf(text, bold, size), 0)
  return {
    least: Math.max(0, ...words.map(width)),
    most: Math.max(0, ...linesOf(pen, runs, size, Number.POSITIVE_INFINITY).map(({ widthPt }) => widthPt)),
  }
}

/** What is not to be divided: pieces of runs that follow each other without a space. */
type Word = readonly Run[]

function wordsOf(runs: readonly Run[]): (Word | 'break')[] {
  const words: (Word | 'break')[] = []
  let word: Run[] = []
  const end = () => {
    if (word.length > 0) words.push(word)
    word = []
  }
  for (const run of runs)
    for (const piece of run.text.split(/([ \t\r]+|\n)/)) {
      if (piece === '\n') {
        end()
        words.push('break')
      } else if (/^[ \t\r]+$/.test(piece)) end()
      else if (piece !== '') word.push({ ...run, text: piece })
    }
  end()
  return words
}

/** The word itself, or its parts where it is wider than a line. */
function fitting(pen: Measure, word: Word, size: number, widthPt: number): Word[] {
  const width = word.reduce((sum, { text, bold }) => sum + pen.widthOf(text, bold, size), 0)
  if (width <= widthPt + SLACK_PT || !Number.isFinite(widthPt)) return [word]
  const parts: Run[][] = [[]]
  let reached = 0
  for (const run of word)
    for (const letter of run.text) {
      const wide = pen.widthOf(letter, run.bold, size)
      if (reached + wide > widthPt && reached > 0) {
        parts.push([])
        reached = 0
      }
      reached += wide
      const last = parts.at(-1)!.at(-1)
      if (last && last.bold === run.bold && last.soft === run.soft)
        parts.at(-1)![parts.at(-1)!.length - 1] = { ...last, text: last.text + letter }
      else parts.at(-1)!.push({ ...run, text: letter })
    }
  return parts
}

class OpenLine {
  private readonly runs: Run[] = []

  private readonly pen: Measure
  private readonly size: number

  constructor(pen: Measure, size: number) {
    this.pen = pen
    this.size = size
  }

  get isEmpty(): boolean {
    return this.runs.length === 0
  }

  widthWith(word: Word): number {
    return widthOf(this.pen, joined(this.runs, word), this.size)
  }

  add(word: Word): void {
    const all = joined(this.runs, word)
    this.runs.splice(0, this.runs.length, ...all)
  }

  closed(): Line {
    let x = 0
    const parts = this.runs.map((run) => {
      const part = { run, x }
      x += this.pen.widthOf(run.text, run.bold, this.size)
      return part
    })
    return { widthPt: x, parts }
  }
}

function widthOf(pen: Measure, runs: readonly Run[], size: number): number {
  return runs.reduce((sum, { text, bold }) => sum + pen.widthOf(text, bold, size), 0)
}

/** Runs with a word after a space; neighbours of one type are one run, so that the text can be searched. */
function joined(runs: readonly Run[], word: Word): Run[] {
  const all = [...runs]
  for (const [index, run] of word.entries()) {
    const last = all.at(-1)
    const text = index === 0 && last ? ` ${run.text}` : run.text
    if (last && last.bold === run.bold && last.soft === run.soft)
      all[all.length - 1] = { ...last, text: last.text + text }
    else all.push({ ...run, text })
  }
  return all
}
