import { attributes, type Html, html } from '../page/html.ts'
import type { Picture, PictureShape } from '../paper/picture.ts'

/** The standard width of a pixel, mm: 96 in an inch. */
const UNIT_MM = 25.4 / 96

/**
 * Pictures one below the other, as a file that needs nothing else: no style sheet, which many programs that read SVG do
 * not know, and which browsers do not apply to an answer of the service.
 */
export function svgFile(title: string, pictures: readonly Picture[]): string {
  const width = Math.max(...pictures.map(({ box }) => box.width))
  const height = pictures.reduce((sum, { box }) => sum + box.height, 0)
  const size = { width: `${mm(width)}mm`, height: `${mm(height)}mm`, viewBox: `0 0 ${width} ${height}` }
  const said = pictures.flatMap(({ description }) => description ?? []).join(' ')
  let top = 0
  const parts = pictures.map(({ box, shapes }) => {
    const moved = `translate(${-box.x} ${top - box.y})`
    top += box.height
    return html`<g${attributes({ transform: moved === 'translate(0 0)' ? null : moved })}>
${shapes.map(
  (shape) => html`${shapeTag(shape)}
`,
)}</g>
`
  })
  const written = html`<svg xmlns="http://www.w3.org/2000/svg"${attributes(size)} font-family="Helvetica, Arial, 'DejaVu Sans', sans-serif">
<title>${title}</title>
${
  said !== '' &&
  html`<desc>${said}</desc>
`
}<rect${attributes({ width, height, fill: '#fff' })}/>
${parts}</svg>
`
  return `<?xml version="1.0" encoding="UTF-8"?>\n${printable(written.toString())}`
}

function mm(units: number): number {
  return Math.round(units * UNIT_MM * 100) / 100
}

function shapeTag(shape: PictureShape): Html {
  const { fill, stroke, dash, opacity } = shape
  const look = {
    fill: fill ?? 'none',
    stroke,
    'stroke-width': stroke && shape.strokeWidth,
    'stroke-dasharray': stroke && dash.length > 0 && dash.join(' '),
    'stroke-dashoffset': stroke && dash.length > 0 && shape.dashOffset !== 0 && shape.dashOffset,
    'stroke-linecap': stroke && shape.roundCaps && 'round',
    'stroke-linejoin': stroke && shape.roundJoins && 'round',
    opacity: opacity < 1 && opacity,
  }
  switch (shape.is) {
    case 'path':
      return html`<path${attributes({ d: shape.d, ...look })}/>`
    case 'rect':
      return html`<rect${attributes({ ...shape.at, rx: shape.radius > 0 && shape.radius, ...look })}/>`
    case 'circle':
      return html`<circle${attributes({ cx: shape.x, cy: shape.y, r: shape.radius, ...look })}/>`
    case 'text': {
      const { x, y, size, bold, anchor } = shape
      const font = { 'font-size': size, 'font-weight': bold && 'bold', 'text-anchor': anchor !== 'start' && anchor }
      return html`<text${attributes({ x, y, ...font, ...look })}>${shape.text}</text>`
    }
  }
}

/** XML has no other control characters, not even as entities. */
function printable(text: string): string {
  return text.replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '\uFFFD')
}
