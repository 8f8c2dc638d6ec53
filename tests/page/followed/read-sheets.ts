import { parseLength } from '../../../src/measure/length.ts'
import { textOf } from '../markup.ts'

/*
 * What a person reads on the sheets of one plan, with the rounding that is printed. Nothing comes from the answer.
 */

const LENGTH = String.raw`(?:\d+ ft(?: [\d/-]+ in)?|[\d/-]+ in|\d*\.\d+ in|\d[\d.]* mm|\d[\d.]* m)(?![\w])`

/** A printed length, mm. */
export function mmIn(text: string): number {
  const found = new RegExp(LENGTH).exec(text)
  const read = found && parseLength(found[0])
  if (!read?.ok) throw new Error(`no length in “${text}”`)
  return read.mm
}

function lengthsOf(text: string): number[] {
  return [...text.matchAll(new RegExp(LENGTH, 'g'))].map(([one]) => mmIn(one))
}

export function between(markup: string, from: string, to: string): string[] {
  return markup
    .split(from)
    .slice(1)
    .map((part) => part.slice(0, part.indexOf(to)))
}

/** Of pieces of tracks, and of rails of turnouts, such as `2-L3` and `W1-7`. */
const marksIn = (text: string) => text.match(/(?:\d+-)?[LR]\d+|W\d+-\d+/g) ?? []

const PIECE_OR_TURNOUT = /(?:\d+-)?[LR]\d+|W\d+(?:-\d+)?/g

/** How each piece is sawn, by its mark. */
export interface Sawn {
  /** Null: a whole stick, which is not sawn. */
  readonly sawToMm: number | null
  /** The printed length of the stick. */
  readonly stickMm: number
  /** Where to mark the stick, and the lengths of the pieces before it on it; null at the end of the stick. */
  readonly markOnStickMm: number | null
  readonly beforeMm: readonly number[]
}

export function readSawSheet(markup: string): Map<string, Sawn> {
  const sawn = new Map<string, Sawn>()
  for (const list of between(markup, '<ul class="whole">', '</ul>'))
    for (const item of between(list, '<li>', '</li>')) {
      const text = textOf(`<li>${item}`)
      const stickMm = mmIn(text.replace(/^\s*\d+ ×/, ''))
      for (const mark of marksIn(text.slice(text.indexOf(':'))))
        sawn.set(mark, { sawToMm: null, stickMm, markOnStickMm: null, beforeMm: [] })
    }
  for (const card of between(markup, '<section class="job">', '</section>')) {
    const stickMm = mmIn(textOf(between(card, '<h4>', '</h4>').map((head) => `<h4>${head}`)[0]!).replace(/^[^:]*:/, ''))
    const beforeMm: number[] = []
    for (const row of between(card.slice(card.indexOf('<tbody>')), '<tr>', '</tr>')) {
      const [saw, mark] = between(row, '<td>', '</td>').map((cell) => textOf(`<td>${cell}`))
      const sawToMm = mmIn(saw!)
      const markOnStickMm = mark!.includes('end of the stick') ? null : mmIn(mark!)
      for (const name of marksIn(textOf(row.slice(0, row.indexOf('</th>')))))
        sawn.set(name, { sawToMm, stickMm, markOnStickMm, beforeMm: [...beforeMm] })
      beforeMm.push(sawToMm)
    }
  }
  return sawn
}

export type Turn = 'left' | 'right'

/** How a bend is made: sprung in, to a radius under load, or by depths, one for each pass. */
export type Setting =
  | { readonly by: 'spring-in' }
  | { readonly by: 'hand'; readonly loadedRadiusMm: number }
  | {
      readonly by: 'machine'
      readonly depthsMm: readonly number[]
      readonly turns: number | null
      readonly pressMm: number | null
    }

export interface CardBend {
  /** From the sawn end; null: the whole piece. */
  readonly marksMm: readonly [number, number] | null
  readonly turn: Turn
  readonly radiusMm: number
  readonly setting: Setting
  /** Chord and middle ordinate to check; null with a template. */
  readonly check: { readonly chordMm: number; readonly midMm: number } | null
}

/** An easement: what to set at each place, from the sawn end; empty where it is sprung in. */
export interface CardEasement {
  readonly turn: Turn
  readonly sprungIn: boolean
  readonly isDepth: boolean
  readonly passesMm: readonly number[]
  readonly pressMm: number | null
  readonly places: readonly { readonly markMm: number; readonly setting: number | null }[]
}

export interface Card {
  readonly sawToMm: number
  readonly bends: readonly (CardBend | CardEasement)[]
  readonly trim: { readonly toMm: number; readonly startMm: number; readonly endMm: number } | null
}

export function readBenchSheet(markup: string): { cards: Map<string, Card>; straight: Set<string> } {
  const cards = new Map<string, Card>()
  const straightText = /Straight, nothing to bend:.*?<\/p>/s.exec(markup)?.[0] ?? ''
  for (const job of between(markup, '<section class="job">', '</section>')) {
    const steps = job.slice(job.indexOf('<ol class="steps">'))
    const flat = steps.replace(/<ul class="places">(.*?)<\/ul>/gs, (_, list: string) =>
      ['', ...between(list, '<li>', '</li>').map((item) => textOf(`<li>${item}`))].join(' @ '),
    )
    const items = between(flat, '<li>', '</li>').map((item) => textOf(`<li>${item}`).trim())
    const card = cardOf(items)
    for (const mark of marksIn(textOf(job.slice(job.indexOf('<h3>'), job.indexOf('</h3>'))))) cards.set(mark, card)
  }
  return { cards, straight: new Set(marksIn(textOf(`<p>${straightText}`))) }
}

function cardOf(items: readonly string[]): Card {
  let trim: Card['trim'] = null
  const bends: (CardBend | CardEasement)[] = []
  for (const [index, item] of items.entries()) {
    if (item.startsWith('Easement')) bends.push(easementOf(item))
    else if (item.startsWith('Mark') || item.startsWith('No marks'))
      bends.push(bendOf(item, items[index + 1]!, items[index + 2]!))
    else if (item.startsWith('Trim to')) trim = trimOf(item)
  }
  return { sawToMm: mmIn(items[0]!), bends, trim }
}

function bendOf(mark: string, how: string, check: string): CardBend {
  const [place, radius] = mark.split(' R ')
  const [fromMm, toMm] = lengthsOf(place!)
  const checked = /^Check on (.*?): middle (.*?),/.exec(check)
  return {
    marksMm: mark.startsWith('No marks') ? null : [fromMm!, toMm!],
    turn: place!.includes('left') ? 'left' : 'right',
    radiusMm: mmIn(radius!),
    setting: settingOf(how),
    check: checked && { chordMm: mmIn(checked[1]!), midMm: mmIn(checked[2]!) },
  }
}

function settingOf(how: string): Setting {
  if (how.startsWith('Do not bend')) return { by: 'spring-in' }
  const machine = /^Bend to depth (.*?)(?:,|$)/.exec(how)
  if (!machine) return { by: 'hand', loadedRadiusMm: mmIn(how.slice(how.indexOf(' R '))) }
  const turns = /· ([\d.]+) turns/.exec(how)
  return {
    by: 'machine',
    depthsMm: depthsIn(how) ?? [mmIn(machine[1]!)],
    turns: turns && Number(turns[1]),
    pressMm: pressIn(how),
  }
}

function pressIn(how: string): number | null {
  const press = /press every (.*?)(?:,|$)/.exec(how)
  return press && mmIn(press[1]!)
}

/** The depths of the passes; between the first and the last of many, equal steps. Null: one pass. */
function depthsIn(how: string): number[] | null {
  const told = /, (\d+) passes: ([^;]*)/.exec(how)
  if (!told) return null
  const unit = told[2]!.includes('mm') ? 1 : 25.4
  const depths = [...told[2]!.matchAll(/\d*\.?\d+/g)].map(([one]) => Number(one) * unit)
  const count = Number(told[1])
  if (!told[2]!.includes('…')) return depths
  const [first, last] = [depths[0]!, depths.at(-1)!]
  return Array.from({ length: count }, (_, n) => first + ((last - first) * n) / (count - 1))
}

function easementOf(item: string): CardEasement {
  const [head, ...places] = item.split(' @ ')
  return {
    turn: /Easement\s*, (left|right)/.exec(head!)![1] as Turn,
    sprungIn: head!.includes('spring it in'),
    isDepth: head!.includes('to this depth'),
    passesMm: depthsIn(head!) ?? [],
    pressMm: pressIn(head!),
    places: places.map((place) => {
      const [markMm, settingMm] = lengthsOf(place)
      return { markMm: markMm!, setting: settingMm ?? null }
    }),
  }
}

function trimOf(item: string): Card['trim'] {
  const [to, off] = item.split(/\s*:/)
  const lengths = lengthsOf(off!)
  const toMm = mmIn(to!)
  if (off!.includes('off each end')) return { toMm, startMm: lengths[0]!, endMm: lengths[0]! }
  const atStart = off!.includes('nearer the start')
  const atEnd = off!.includes('other end')
  return { toMm, startMm: atStart ? lengths[0]! : 0, endMm: atEnd ? lengths.at(-1)! : 0 }
}

/** A joint of one rail: the marks of the pieces, or the names of the turnouts, before and after it, and the gap between. */
export interface ReadJoint {
  readonly between: readonly string[]
  readonly alongMm: number
  readonly gapMm: number
}

/** The joints of each rail, track by track: left, right. */
export function readGardenSheet(markup: string): ReadJoint[][] {
  return between(markup, '<table class="figures joints-table">', '</table>').map((table) => {
    const withGaps = table.includes('Gap at')
    return between(table.slice(table.indexOf('<tbody>')), '<tr', '</tr>').map((row) => {
      const [along, pieces, gap] = between(row, '<td', '</td>').map((cell) => textOf(`<td${cell}`))
      const hasGap = withGaps && /\d/.test(gap!)
      return { between: pieces!.match(PIECE_OR_TURNOUT) ?? [], alongMm: mmIn(along!), gapMm: hasGap ? mmIn(gap!) : 0 }
    })
  })
}
