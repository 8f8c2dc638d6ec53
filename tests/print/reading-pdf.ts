import { inflateSync } from 'node:zlib'
import { extractText, getDocumentProxy } from 'unpdf'

/** The text of each page, as another program finds it. */
export async function textOfPages(pdf: Uint8Array): Promise<string[]> {
  const document = await getDocumentProxy(pdf.slice())
  const { text } = await extractText(document, { mergePages: false })
  return text.map((page) => page.replace(/\s+/g, ' '))
}

export interface Point {
  readonly x: number
  readonly y: number
}

/** A stroked or filled path, in mm on the page from its lower left corner. */
export interface DrawnPath {
  /** Width of the stroke, mm. */
  readonly widthMm: number
  readonly lines: readonly (readonly Point[])[]
  /** What nothing outside of is seen, mm: the smallest rectangle that was clipped to. */
  readonly seen: { readonly left: number; readonly right: number; readonly bottom: number; readonly top: number } | null
}

type Matrix = readonly [number, number, number, number, number, number]

const MM = 25.4 / 72

/**
 * The paths of each page, read from the file's own content streams (ISO 32000: `cm` multiplies the matrix, `q` and `Q`
 * keep and restore, `m`, `l`, `c`, `re` make paths, `w` is the width). Curves give their ends alone.
 */
export function pathsOfPages(pdf: Uint8Array): DrawnPath[][] {
  const text = Buffer.from(pdf).toString('latin1')
  const objects = new Map(
    [...text.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g)].map(([, id, body]) => [id!, body!]),
  )
  const tree = [...objects.values()].find((body) => /\/Type \/Pages\b/.test(body))!
  const [, kids] = /\/Kids \[([^\]]*)\]/.exec(tree)!
  return [...kids!.matchAll(/(\d+) 0 R/g)].map(([, id]) => {
    const [, contents] = /\/Contents (\d+) 0 R/.exec(objects.get(id!)!)!
    const [head, length] = /\/Length (\d+)[\s\S]*?stream\n/.exec(objects.get(contents!)!)!
    const begins = objects.get(contents!)!.indexOf(head) + head.length
    const stream = objects.get(contents!)!.slice(begins, begins + Number(length))
    return pathsIn(inflateSync(Buffer.from(stream, 'latin1')).toString('latin1'))
  })
}

interface State {
  matrix: Matrix
  width: number
  seen: DrawnPath['seen']
}

function pathsIn(content: string): DrawnPath[] {
  const paths: DrawnPath[] = []
  const kept: State[] = []
  let state: State = { matrix: [1, 0, 0, 1, 0, 0], width: 1, seen: null }
  let lines: Point[][] = []
  let isClip = false
  const place = (x: number, y: number): Point => {
    const [a, b, c, d, e, f] = state.matrix
    return { x: (a * x + c * y + e) * MM, y: (b * x + d * y + f) * MM }
  }
  const operands: string[] = []
  const finish = (drawn: boolean) => {
    if (isClip) state = { ...state, seen: edges(lines.flat()) }
    if (drawn) {
      const [a, b] = state.matrix
      paths.push({ widthMm: state.width * Math.hypot(a, b) * MM, lines, seen: state.seen })
    }
    lines = []
    isClip = false
  }
  for (const token of content.match(/\((?:\\.|[^\\)])*\)|<[^>]*>|\[|\]|[^\s[\]]+/g) ?? []) {
    if (!/^[A-Za-z'"*]+$/.test(token)) {
      operands.push(token)
      continue
    }
    const n = operands.map(Number)
    if (token === 'q') kept.push({ ...state })
    else if (token === 'Q') state = kept.pop()!
    else if (token === 'cm') state = { ...state, matrix: product(n as unknown as Matrix, state.matrix) }
    else if (token === 'w') state = { ...state, width: n[0]! }
    else if (token === 'm') lines.push([place(n[0]!, n[1]!)])
    else if (token === 'l') lines.at(-1)!.push(place(n[0]!, n[1]!))
    else if (token === 'c') lines.at(-1)!.push(place(n[4]!, n[5]!))
    else if (token === 're') {
      const [x, y, w, h] = n as [number, number, number, number]
      lines.push([place(x, y), place(x + w, y), place(x + w, y + h), place(x, y + h)])
    } else if (token === 'W') isClip = true
    else if (token === 'n') finish(false)
    else if (/^(S|f|B|f\*|B\*|s|b)$/.test(token)) finish(true)
    operands.length = 0
  }
  return paths
}

function product(m: Matrix, by: Matrix): Matrix {
  const [a, b, c, d, e, f] = m
  const [A, B, C, D, E, F] = by
  return [a * A + b * C, a * B + b * D, c * A + d * C, c * B + d * D, e * A + f * C + E, e * B + f * D + F]
}

function edges(points: readonly Point[]): DrawnPath['seen'] {
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)]
  return { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) }
}

/** The circle that points lie on best (least squares in x² + y², by normal equations of 3 unknowns). */
export function circleThrough(points: readonly Point[]): { x: number; y: number; radius: number } {
  const mean = { x: average(points.map(({ x }) => x)), y: average(points.map(({ y }) => y)) }
  const near = points.map(({ x, y }) => ({ x: x - mean.x, y: y - mean.y }))
  const sum = (of: (p: Point) => number) => near.reduce((all, point) => all + of(point), 0)
  const [xx, yy, xy] = [sum(({ x }) => x * x), sum(({ y }) => y * y), sum(({ x, y }) => x * y)]
  const square = ({ x, y }: Point) => x * x + y * y
  const [xz, yz] = [sum((p) => p.x * square(p)) / 2, sum((p) => p.y * square(p)) / 2]
  const determinant = xx * yy - xy * xy
  const [x, y] = [(xz * yy - yz * xy) / determinant, (yz * xx - xz * xy) / determinant]
  return { x: x + mean.x, y: y + mean.y, radius: Math.sqrt(x * x + y * y + (xx + yy) / points.length) }
}

function average(values: readonly number[]): number {
  return values.reduce((all, value) => all + value, 0) / values.length
}

/** The length of lines within a rectangle (Liang and Barsky's clipping, by hand). */
export function lengthWithin(
  lines: DrawnPath['lines'],
  { left, right, bottom, top }: NonNullable<DrawnPath['seen']>,
): number {
  let length = 0
  for (const line of lines)
    for (const [index, to] of line.slice(1).entries()) {
      const from = line[index]!
      const [dx, dy] = [to.x - from.x, to.y - from.y]
      let [first, last] = [0, 1]
      for (const [p, q] of [
        [-dx, from.x - left],
        [dx, right - from.x],
        [-dy, from.y - bottom],
        [dy, top - from.y],
      ] as const) {
        if (p === 0 && q < 0) last = -1
        else if (p < 0) first = Math.max(first, q / p)
        else if (p > 0) last = Math.min(last, q / p)
      }
      if (last > first) length += (last - first) * Math.hypot(dx, dy)
    }
  return length
}
