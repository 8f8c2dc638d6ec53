import type { Picture } from '../picture.ts'

/** A piece of text in one type. */
export interface Run {
  readonly text: string
  readonly bold: boolean
  /** In grey. */
  readonly soft: boolean
}

export interface Cell {
  readonly runs: readonly Run[]
  readonly columns: number
  readonly rows: number
}

export type Row = readonly Cell[]

/** What is printed, one after the other; how large it is and where a page ends is the business of the layout. */
export type Block =
  | { readonly is: 'heading'; readonly level: 1 | 2 | 3; readonly runs: readonly Run[] }
  | { readonly is: 'paragraph'; readonly runs: readonly Run[] }
  | { readonly is: 'list'; readonly numbered: boolean; readonly items: readonly (readonly Block[])[] }
  | {
      readonly is: 'table'
      readonly caption: readonly Run[]
      /** Repeated on each page. */
      readonly head: readonly Row[]
      readonly body: readonly Row[]
      readonly foot: readonly Row[]
    }
  /** In columns of the same width. */
  | { readonly is: 'beside'; readonly parts: readonly (readonly Block[])[] }
  /** Boxes, two in a row; those to cut out are a quarter of a page each. */
  | { readonly is: 'cards'; readonly cards: readonly (readonly Block[])[]; readonly quarters: boolean }
  /** @param unitMm how long a unit of the picture is on paper; null: as wide as the page */
  | { readonly is: 'picture'; readonly picture: Picture; readonly unitMm: number | null }
  /** Symbols and what they mean, in a row. */
  | { readonly is: 'key'; readonly entries: readonly { readonly picture: Picture; readonly runs: readonly Run[] }[] }

/** Blocks on pages of one orientation. */
export interface Section {
  readonly landscape: boolean
  /** Whether it begins on a new page even after a section of the same orientation: `where-little-is-left` below two thirds of a page. */
  readonly newPage: 'always' | 'where-little-is-left' | 'no'
  readonly blocks: readonly Block[]
}

export type Paper = 'a4' | 'letter'

export interface PdfDocument {
  readonly title: string
  readonly paper: Paper
  /** ISO 8601, such as 2026-05-31. */
  readonly date: string
  /** At the foot of each page. */
  readonly foot: string
  readonly sections: readonly Section[]
}

/** Text in the usual type. */
export function plain(text: string): Run {
  return { text, bold: false, soft: false }
}

export function bold(text: string): Run {
  return { text, bold: true, soft: false }
}

export function soft(text: string): Run {
  return { text, bold: false, soft: true }
}
