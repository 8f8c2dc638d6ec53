import { textOf } from '../markup.ts'
import { between, mmIn, type Turn } from './read-sheets.ts'

/* What a person reads of a turnout that is built by hand, with the rounding that is printed. */

/** A row of the table of its rails. */
export interface ReadRail {
  readonly mark: string
  /** Such as `closure rail`. */
  readonly rail: string
  readonly leg: 'through' | 'diverging'
  readonly side: Turn
  readonly fromMm: number
  readonly lengthMm: number
}

export function readRails(saw: string, turnout: string): ReadRail[] {
  const table = saw.slice(saw.indexOf(`<h3>Rails of ${turnout}</h3>`)).split('</table>')[0]!
  return between(table.slice(table.indexOf('<tbody>')), '<tr>', '</tr>').map((row) => {
    const mark = textOf(row.slice(0, row.indexOf('</th>'))).trim()
    const [rail, leg, side, from, length] = between(row, '<td>', '</td>').map((cell) => textOf(`<td>${cell}`).trim())
    return {
      mark,
      rail: rail!,
      leg: leg as ReadRail['leg'],
      side: side as Turn,
      fromMm: mmIn(from!),
      lengthMm: mmIn(length!),
    }
  })
}

/** A bend in one place, from the end nearer the points; left positive. */
export interface ReadKink {
  readonly atMm: number
  readonly turnRad: number
}

export function readKinks(bench: string): Map<string, ReadKink> {
  const list = bench.slice(bench.indexOf('to bend in one place')).split('</ul>')[0]!
  return new Map(
    between(list, '<li>', '</li>').map((item) => {
      const text = textOf(`<li>${item}`).trim()
      const [, mark, deg, turn, where] = /^(\S+?) ?, .*?: ([\d.]+)° to the (left|right), (.*)$/.exec(text)!
      const turnRad = ((turn === 'left' ? 1 : -1) * Number(deg) * Math.PI) / 180
      return [mark!, { atMm: where!.startsWith('at the points') ? 0 : mmIn(where!), turnRad }]
    }),
  )
}

interface ReadPlace {
  readonly x: number
  readonly y: number
}

interface ReadPose extends ReadPlace {
  readonly headingRad: number
}

/** Where a turnout goes in the garden. */
export interface ReadTurnout {
  readonly points: ReadPose
  readonly frog: ReadPlace
  readonly divergingEnd: ReadPose
}

export function readTurnouts(garden: string): Map<string, ReadTurnout> {
  const table = garden.slice(garden.indexOf('<table class="figures turnouts">')).split('</table>')[0]!
  return new Map(
    between(table.slice(table.indexOf('<tbody>')), '<tr>', '</tr>').map((row) => {
      const name = textOf(row.slice(0, row.indexOf('</th>')))
        .trim()
        .split(/\s/)[0]!
      const cells = between(row, '<td>', '</td>').map((cell) => textOf(`<td>${cell}`))
      // Track, points x, y and heading, frog x and y, diverging end x, y and heading.
      const [px, py, fx, fy, dx, dy] = [1, 2, 4, 5, 6, 7].map((n) => signed(cells[n]!))
      return [
        name,
        {
          points: { x: px!, y: py!, headingRad: radIn(cells[3]!) },
          frog: { x: fx!, y: fy! },
          divergingEnd: { x: dx!, y: dy!, headingRad: radIn(cells[8]!) },
        },
      ]
    }),
  )
}

/** Where a turnout goes, and the places of its curved closure rail from the points, by their names. */
export interface ReadPlaces extends ReadTurnout {
  readonly closure: readonly { readonly alongMm: number; readonly offsetMm: number }[]
}

/** Of the only turnout. */
export function readPlaces(garden: string): ReadPlaces {
  const places = garden.slice(garden.indexOf('Curved closure rail</th>')).split('</table>')[0]!
  const rows = between(places.slice(places.indexOf('<tbody>')), '<tr>', '</tr>')
  return {
    ...[...readTurnouts(garden).values()][0]!,
    closure: rows.map((row) => {
      const [along, offset] = between(row, '<td>', '</td>').map((cell) => mmIn(textOf(`<td>${cell}`)))
      return { alongMm: along!, offsetMm: offset! }
    }),
  }
}

/** A peg on the centre line; without a height where the track is level. */
export interface ReadPeg extends ReadPose {
  readonly stationMm: number
  readonly heightMm: number | null
}

/** The pegs of each track. */
export function readPegs(garden: string): Map<string, ReadPeg[]> {
  const tables = between(garden, 'aria-label="Pegs of ', '</table>')
  return new Map(
    tables.map((table) => {
      const hasHeight = table.includes('>Height</th>')
      const pegs = between(table.slice(table.indexOf('<tbody>')), '<tr>', '</tr>').map((row) => {
        const [, x, y, ...others] = between(row, '<td>', '</td>').map((cell) => textOf(`<td>${cell}`))
        return {
          stationMm: mmIn(textOf(row.slice(0, row.indexOf('</th>')))),
          x: signed(x!),
          y: signed(y!),
          headingRad: radIn(others.at(-1)!),
          heightMm: hasHeight ? signed(others[0]!) : null,
        }
      })
      return [table.slice(0, table.indexOf('"')), pegs]
    }),
  )
}

function radIn(text: string): number {
  return (Number(/[\d.]+/.exec(text)![0]) * Math.PI) / 180
}

function signed(text: string): number {
  const [, minus, length] = /^\s*([-−]?)(.*)$/s.exec(text)!
  return (minus === '' ? 1 : -1) * mmIn(length!)
}
