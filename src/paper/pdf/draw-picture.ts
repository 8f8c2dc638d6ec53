import type { Look, Picture, PictureBox, PictureShape } from '../picture.ts'
import type { Pen } from './pen.ts'
import { withinBox } from './within-box.ts'

/** Draws a picture, and nothing beyond its edges. */
export function drawPicture(pen: Pen, { box, shapes }: Picture, x: number, y: number, ptPerUnit: number): void {
  const { kit } = pen
  kit.save()
  kit.translate(x, y).scale(ptPerUnit).translate(-box.x, -box.y)
  kit.rect(box.x, box.y, box.width, box.height).clip()
  for (const shape of shapes) drawShape(pen, shape, box)
  kit.restore()
}

function drawShape(pen: Pen, shape: PictureShape, box: PictureBox): void {
  const { kit } = pen
  if (shape.is === 'text') {
    drawText(pen, shape)
    return
  }
  if (shape.fill === null && shape.stroke === null) return
  const d = shape.is === 'path' ? withinBox(shape.d, grown(box, shape.strokeWidth)) : null
  if (d === '') return
  kit.save()
  applyLook(pen, shape)
  if (d !== null) kit.path(d)
  else if (shape.is === 'circle') kit.circle(shape.x, shape.y, shape.radius)
  else if (shape.is === 'rect') {
    const { x, y, width, height } = shape.at
    if (shape.radius > 0) kit.roundedRect(x, y, width, height, shape.radius)
    else kit.rect(x, y, width, height)
  }
  if (shape.fill !== null && shape.stroke !== null) kit.fillAndStroke(shape.fill, shape.stroke)
  else if (shape.fill !== null) kit.fill(shape.fill)
  else kit.stroke(shape.stroke!)
  kit.restore()
}

function applyLook({ kit }: Pen, { strokeWidth, dash, dashOffset, opacity, roundCaps, roundJoins }: Look): void {
  kit.lineWidth(strokeWidth)
  if (opacity < 1) kit.opacity(opacity)
  if (roundCaps) kit.lineCap('round')
  if (roundJoins) kit.lineJoin('round')
  const [on = 0, off = on] = dash
  if (dash.length > 0) kit.dash(on, { space: off, phase: dashOffset })
}

function drawText(pen: Pen, shape: PictureShape & { readonly is: 'text' }): void {
  const { text, x, y, size, bold, anchor, fill } = shape
  const width = pen.widthOf(text, bold, size)
  const left = x - (anchor === 'middle' ? width / 2 : anchor === 'end' ? width : 0)
  pen.text({ text, bold, soft: false }, left, y, size, fill ?? undefined)
}

function grown({ x, y, width, height }: PictureBox, by: number): PictureBox {
  return { x: x - by, y: y - by, width: width + 2 * by, height: height + 2 * by }
}
