/** A drawing as plain values: shapes in units of its own, y down, each with the look it has on paper. */
export interface Picture {
  readonly title: string | null
  readonly description: string | null
  readonly box: PictureBox
  readonly shapes: readonly PictureShape[]
}

/** The part of the drawing that is shown. */
export interface PictureBox {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface Look {
  readonly fill: string | null
  readonly stroke: string | null
  readonly strokeWidth: number
  readonly dash: readonly number[]
  readonly dashOffset: number
  /** From 0 to 1. */
  readonly opacity: number
  readonly roundCaps: boolean
  readonly roundJoins: boolean
}

export type PictureShape = Look &
  (
    | { readonly is: 'path'; readonly d: string }
    | { readonly is: 'rect'; readonly at: PictureBox; readonly radius: number }
    | { readonly is: 'circle'; readonly x: number; readonly y: number; readonly radius: number }
    | {
        readonly is: 'text'
        readonly x: number
        readonly y: number
        readonly text: string
        readonly size: number
        readonly bold: boolean
        readonly anchor: 'start' | 'middle' | 'end'
      }
  )
