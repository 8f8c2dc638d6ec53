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
  const width = (word: Word) => widthOf(pen, word, size)
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
  const width = widthOf(pen, word, size)
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

/** A line as it grows. Widths are added up word by word, so that each word is measured once in a document. */
class OpenLine {
  private readonly pen: Measure
  private readonly size: number
  private readonly parts: { run: Run; x: number }[] = []
  private reached = 0

  constructor(pen: Measure, size: number) {
    this.pen = pen
    this.size = size
  }

  get isEmpty(): boolean {
    return this.parts.length === 0
  }

  widthWith(word: Word): number {
    return this.reached + this.space(word[0]!) + widthOf(this.pen, word, this.size)
  }

  /** Neighbours of one type are one run, so that the text can be searched. */
  add(word: Word): void {
    for (const [index, run] of word.entries()) {
      const isNext = index === 0 && !this.isEmpty
      const last = this.parts.at(-1)
      const width = (isNext ? this.space(run) : 0) + this.pen.widthOf(run.text, run.bold, this.size)
      const text = isNext ? ` ${run.text}` : run.text
      if (last && last.run.bold === run.bold && last.run.soft === run.soft)
        this.parts[this.parts.length - 1] = { ...last, run: { ...last.run, text: last.run.text + text } }
      else this.parts.push({ run: { ...run, text }, x: this.reached })
      this.reached += width
    }
  }

  closed(): Line {
    return { widthPt: this.reached, parts: this.parts }
  }

  private space({ bold }: Run): number {
    return this.isEmpty ? 0 : this.pen.widthOf(' ', bold, this.size)
  }
}

function widthOf(pen: Measure, runs: readonly Run[], size: number): number {
  return runs.reduce((sum, { text, bold }) => sum + pen.widthOf(text, bold, size), 0)
}
