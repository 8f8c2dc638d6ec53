import { RESULTS } from './follow.ts'
import { button } from './places.ts'
import { type PlaceMm, placeAt, readPlace, type Sheet, type Spot, sheetOf, spotAt } from './sheet-places.ts'
import { toolbar } from './toolbar.ts'

/*
 * The drawing is zoomed and moved, with buttons, wheel, keys, or fingers, and reads the place under the pointer and its
 * distance from a mark. What it shows stays when it is drawn anew.
 */

const MOST_ZOOM = 40
const STEP = 1.5
/** A pointer that moved less than this, in pixels, tapped. */
const TAP = 5

/** What is looked at: the middle of the window on the sheet and how much closer than the whole. Null: the whole. */
let looked: { readonly middle: PlaceMm; readonly zoom: number } | null = null
let mark: PlaceMm | null = null

export function drawings(): void {
  enhance()
  document.addEventListener(RESULTS, enhance)
}

function enhance(): void {
  const svg = document.querySelector<SVGSVGElement>('#drawing svg[data-sheet]')
  if (svg && !svg.dataset.moved) new Drawing(svg)
}

class Drawing {
  private readonly sheet: Sheet
  private readonly whole: { readonly width: number; readonly height: number }
  private readonly readout = document.createElement('output')
  private readonly pointers = new Map<number, Spot>()
  private readonly svg: SVGSVGElement
  private moved = 0

  constructor(svg: SVGSVGElement) {
    this.svg = svg
    svg.dataset.moved = 'yes'
    this.sheet = sheetOf(svg)
    const { width, height } = svg.viewBox.baseVal
    this.whole = { width, height }
    this.addTools()
    this.addPointers()
    const box = svg.closest<HTMLElement>('.drawing')
    box?.addEventListener('keydown', (event) => this.key(event))
    this.show()
    this.showMark()
  }

  private addTools(): void {
    const tools = toolbar('Drawing tools', [
      button('+', () => this.zoom(STEP), 'Zoom in'),
      button('−', () => this.zoom(1 / STEP), 'Zoom out'),
      button('Whole plan', () => this.lookAt(null)),
    ])
    tools.append(this.readout)
    this.readout.textContent = 'Tap the drawing to set a mark.'
    this.svg.closest('.drawing')?.before(tools)
  }

  private addPointers(): void {
    const { svg } = this
    svg.addEventListener(
      'wheel',
      (event) => {
        // The page scrolls, unless the drawing has the focus.
        if (!event.ctrlKey && !svg.closest('.drawing')?.contains(document.activeElement)) return
        event.preventDefault()
        this.zoom(event.deltaY < 0 ? 1.2 : 1 / 1.2, this.spotOf(event))
      },
      { passive: false },
    )
    svg.addEventListener('pointerdown', (event) => {
      this.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY })
      this.moved = 0
    })
    svg.addEventListener('pointermove', (event) => this.pointerMoved(event))
    for (const kind of ['pointerup', 'pointercancel', 'pointerleave'])
      svg.addEventListener(kind, (event) => this.pointers.delete((event as PointerEvent).pointerId))
    svg.addEventListener('click', (event) => {
      if (this.moved > TAP) {
        event.stopPropagation()
        return
      }
      mark = placeAt(this.sheet, this.spotOf(event))
      this.showMark()
      this.read(event)
      svg.closest<HTMLElement>('.drawing')?.focus({ preventScroll: true })
    })
  }

  private pointerMoved(event: PointerEvent): void {
    const before = this.pointers.get(event.pointerId)
    if (!before) {
      this.read(event)
      return
    }
    const now = { x: event.clientX, y: event.clientY }
    const [other] = [...this.pointers].filter(([id]) => id !== event.pointerId).map(([, spot]) => spot)
    this.pointers.set(event.pointerId, now)
    this.moved += Math.hypot(now.x - before.x, now.y - before.y)
    if (other) {
      const apart = (spot: Spot) => Math.hypot(spot.x - other.x, spot.y - other.y)
      const middle = this.spotOf({ clientX: (now.x + other.x) / 2, clientY: (now.y + other.y) / 2 })
      if (apart(before) > 0) this.zoom(apart(now) / apart(before), middle)
    } else if (looked && this.moved > TAP) {
      const perPixel = this.whole.width / looked.zoom / this.svg.getBoundingClientRect().width
      this.moveBy((before.x - now.x) * perPixel, (before.y - now.y) * perPixel)
    }
  }

  private key(event: KeyboardEvent): void {
    const step = this.whole.width / (looked?.zoom ?? 1) / 8
    const moves: Readonly<Record<string, () => void>> = {
      '+': () => this.zoom(STEP),
      '-': () => this.zoom(1 / STEP),
      '0': () => this.lookAt(null),
      ArrowLeft: () => this.moveBy(-step, 0),
      ArrowRight: () => this.moveBy(step, 0),
      ArrowUp: () => this.moveBy(0, -step),
      ArrowDown: () => this.moveBy(0, step),
    }
    const move = moves[event.key]
    if (!move || event.ctrlKey || event.metaKey || event.altKey || (!looked && event.key.startsWith('Arrow'))) return
    event.preventDefault()
    move()
  }

  /** Closer or farther, with one spot of the drawing staying where it is. */
  private zoom(times: number, about: Spot = this.middle()): void {
    const before = looked?.zoom ?? 1
    const zoom = Math.min(MOST_ZOOM, before * times)
    const middle = this.middle()
    const part = before / zoom
    const spot = { x: about.x + (middle.x - about.x) * part, y: about.y + (middle.y - about.y) * part }
    this.lookAt(zoom <= 1.001 ? null : { middle: placeAt(this.sheet, spot), zoom })
  }

  private moveBy(x: number, y: number): void {
    if (!looked) return
    const middle = this.middle()
    const inside = (value: number, most: number) => Math.min(most, Math.max(0, value))
    const spot = { x: inside(middle.x + x, this.whole.width), y: inside(middle.y + y, this.whole.height) }
    this.lookAt({ ...looked, middle: placeAt(this.sheet, spot) })
  }

  private lookAt(to: typeof looked): void {
    looked = to
    this.show()
  }

  private middle(): Spot {
    return looked ? spotAt(this.sheet, looked.middle) : { x: this.whole.width / 2, y: this.whole.height / 2 }
  }

  private show(): void {
    const zoom = looked?.zoom ?? 1
    const [width, height] = [this.whole.width / zoom, this.whole.height / zoom]
    const { x, y } = this.middle()
    this.svg.setAttribute(
      'viewBox',
      [x - width / 2, y - height / 2, width, height].map((each) => each.toFixed(3)).join(' '),
    )
    this.svg.classList.toggle('close', looked !== null)
  }

  private showMark(): void {
    this.svg.querySelector('.measured-from')?.remove()
    if (!mark) return
    const { x, y } = spotAt(this.sheet, mark)
    const cross = document.createElementNS('http://www.w3.org/2000/svg', 'path')
    cross.setAttribute('class', 'measured-from')
    cross.setAttribute('d', `M${x - 7} ${y}h14M${x} ${y - 7}v14`)
    this.svg.append(cross)
  }

  private read(event: PointerEvent | MouseEvent): void {
    const place = placeAt(this.sheet, this.spotOf(event))
    this.readout.textContent = readPlace(place, mark, this.svg.dataset.units ?? 'both')
  }

  private spotOf({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }): Spot {
    const matrix = this.svg.getScreenCTM()?.inverse()
    const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(matrix)
    return { x, y }
  }
}
