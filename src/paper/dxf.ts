import { DxfWriter, LWPolylineFlags, point3d, Units } from '@tarikjabiri/dxf'

/** A place, mm: x to the right, y up. */
export interface DxfPoint {
  readonly xMm: number
  readonly yMm: number
}

/** The layers of a drawing, with the number of the colour each has in every program. */
export const DXF_LAYERS = {
  'centre line': 1,
  rails: 7,
  ties: 8,
  joints: 6,
  turnouts: 5,
  pegs: 3,
  text: 7,
} as const

export type DxfLayer = keyof typeof DXF_LAYERS

/** Angles are in degrees, counter-clockwise from the x axis; an arc runs counter-clockwise. */
export type DxfShape = { readonly layer: DxfLayer } & (
  | { readonly is: 'line'; readonly from: DxfPoint; readonly to: DxfPoint }
  | {
      readonly is: 'arc'
      readonly centre: DxfPoint
      readonly radiusMm: number
      readonly fromDeg: number
      readonly toDeg: number
    }
  | { readonly is: 'circle'; readonly centre: DxfPoint; readonly radiusMm: number }
  | { readonly is: 'polyline'; readonly points: readonly DxfPoint[] }
  | {
      readonly is: 'text'
      readonly at: DxfPoint
      readonly text: string
      readonly heightMm: number
      readonly turnedDeg: number
    }
)

/** A drawing as DXF for programs that draw (CAD), in millimetres. */
export function dxfOf(shapes: readonly DxfShape[]): string {
  const drawing = new DxfWriter()
  drawing.setUnits(Units.Millimeters)
  drawing.setVariable('$LASTSAVEDBY', { 1: 'Longchord' })
  // 1: metric, so that line types and hatches have their metric sizes.
  drawing.setVariable('$MEASUREMENT', { 70: 1 })
  for (const [name, colour] of Object.entries(DXF_LAYERS)) drawing.addLayer(name, colour, 'Continuous')
  for (const shape of shapes) add(drawing, shape)
  return drawing.stringify()
}

function add(drawing: DxfWriter, shape: DxfShape): void {
  const on = { layerName: shape.layer }
  switch (shape.is) {
    case 'line':
      drawing.addLine(at(shape.from), at(shape.to), on)
      return
    case 'arc':
      drawing.addArc(at(shape.centre), shape.radiusMm, inCircle(shape.fromDeg), inCircle(shape.toDeg), on)
      return
    case 'circle':
      drawing.addCircle(at(shape.centre), shape.radiusMm, on)
      return
    case 'polyline':
      drawing.addLWPolyline(
        shape.points.map(({ xMm, yMm }) => ({ point: { x: xMm, y: yMm } })),
        { ...on, flags: LWPolylineFlags.None },
      )
      return
    case 'text':
      drawing.addText(at(shape.at), shape.heightMm, oneLine(shape.text), {
        ...on,
        rotation: inCircle(shape.turnedDeg),
      })
  }
}

function at({ xMm, yMm }: DxfPoint) {
  return point3d(xMm, yMm, 0)
}

/** The same direction from 0 to 360°. */
function inCircle(deg: number): number {
  const within = deg % 360
  return within < 0 ? within + 360 : within
}

/** Each value of the format is a line: a text with a line break would end it, and what follows would be read as more. */
function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ')
}
