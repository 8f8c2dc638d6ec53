import type { Html } from '../page/html.ts'
import type { Look, Picture, PictureBox, PictureShape } from '../paper/picture.ts'
import { type Declarations, styleOf } from './drawing-style.ts'
import { elementsIn, type Markup, readMarkup, textIn } from './markup.ts'

/** A drawing of the page as plain values, with what the style sheet says of each shape. */
export function pictureOf(drawing: Html): Picture {
  const [svg] = elementsIn(readMarkup(drawing), 'svg')
  if (!svg) throw new Error('no drawing')
  return pictureIn(svg)
}

/** The same of an element `svg`. */
export function pictureIn(svg: Markup): Picture {
  const [x, y, width, height] = (svg.attributes.viewBox ?? '0 0 0 0').split(' ').map(Number) as [number, ...number[]]
  const said = (name: string) => elementsIn(svg, name).map(textIn)[0] ?? null
  return {
    title: said('title'),
    description: said('desc'),
    box: { x, y: y!, width: width!, height: height! },
    shapes: shapesIn(svg, [], 1),
  }
}

/** What says something about a drawing without being seen. */
const UNSEEN = ['title', 'desc', 'defs']

function shapesIn(parent: Markup, above: readonly Markup[], opacity: number): PictureShape[] {
  const ancestors = [...above, parent]
  return parent.children.flatMap((child): PictureShape[] => {
    if (typeof child === 'string' || UNSEEN.includes(child.name)) return []
    const style = { ...child.attributes, ...styleOf(child, ancestors) }
    const seen = opacity * number(style.opacity, 1)
    if (child.name === 'g' || child.name === 'svg') return shapesIn(child, ancestors, seen)
    return looksOf(style, seen).map((look) => shapeOf(child, style, look))
  })
}

/** One that is filled more lightly than it is edged is two shapes; one without colour is none. */
function looksOf(style: Declarations, opacity: number): Look[] {
  const look = { ...lookOf(style), opacity }
  const filled = number(style['fill-opacity'], 1)
  const looks =
    filled < 1
      ? [
          { ...look, stroke: null, opacity: opacity * filled },
          { ...look, fill: null },
        ]
      : [look]
  return looks.filter(({ fill, stroke }) => fill !== null || stroke !== null)
}

function shapeOf(element: Markup, style: Declarations, look: Look): PictureShape {
  const at = (name: string) => number(element.attributes[name], 0)
  switch (element.name) {
    case 'path':
      return { ...look, is: 'path', d: element.attributes.d ?? '' }
    case 'rect':
      return { ...look, is: 'rect', at: boxOf(at), radius: at('rx') }
    case 'circle':
      return { ...look, is: 'circle', x: at('cx'), y: at('cy'), radius: at('r') }
    case 'text':
      return {
        ...look,
        // A light edge keeps a text legible on the screen; on paper the text alone is.
        stroke: null,
        is: 'text',
        ...{ x: at('x'), y: at('y'), text: textIn(element) },
        size: number(style['font-size'] ?? style.font, USUAL_SIZE),
        bold: number(style['font-weight'], 400) >= 600,
        anchor: anchorOf(style['text-anchor']),
      }
    default:
      throw new Error(`no shape is called ${element.name}`)
  }
}

const USUAL_SIZE = 12.5

function boxOf(at: (name: string) => number): PictureBox {
  return { x: at('x'), y: at('y'), width: at('width'), height: at('height') }
}

function anchorOf(text: string | undefined): 'start' | 'middle' | 'end' {
  return text === 'middle' || text === 'end' ? text : 'start'
}

/** What patterns are drawn as. */
const HATCHED = '#d9d5c6'

function lookOf(style: Declarations): Omit<Look, 'opacity'> {
  const { fill = '#000', stroke = 'none' } = style
  const dashes = style['stroke-dasharray'] ?? 'none'
  return {
    fill: colour(fill),
    stroke: colour(stroke),
    strokeWidth: number(style['stroke-width'], 1),
    dash: dashes === 'none' ? [] : dashes.split(/[\s,]+/).map(Number),
    dashOffset: number(style['stroke-dashoffset'], 0),
    roundCaps: style['stroke-linecap'] === 'round',
    roundJoins: style['stroke-linejoin'] === 'round',
  }
}

function colour(text: string): string | null {
  if (text === 'none' || text === 'transparent') return null
  return text.startsWith('url(') ? HATCHED : text
}

/** The number that a text begins with. */
function number(text: string | undefined, otherwise: number): number {
  const value = Number.parseFloat(text ?? '')
  return Number.isNaN(value) ? otherwise : value
}
