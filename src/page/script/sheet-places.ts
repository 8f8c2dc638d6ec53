/** Where a drawing lies on the sheet: units of the drawing per millimetre, and the place of the origin in it. */
export interface Sheet {
  readonly scale: number
  readonly x: number
  readonly y: number
}

export interface PlaceMm {
  readonly xMm: number
  readonly yMm: number
}

export interface Spot {
  readonly x: number
  readonly y: number
}

export function sheetOf(svg: SVGElement): Sheet {
  const [scale = 1, x = 0, y = 0] = (svg.dataset.sheet ?? '').split(' ').map(Number)
  return { scale, x, y }
}

export function placeAt({ scale, x, y }: Sheet, spot: Spot): PlaceMm {
  return { xMm: (spot.x - x) / scale, yMm: (y - spot.y) / scale }
}

export function spotAt({ scale, x, y }: Sheet, { xMm, yMm }: PlaceMm): Spot {
  return { x: x + xMm * scale, y: y - yMm * scale }
}

/** A length as it is read off a drawing: to a centimetre, or to half an inch. */
export function readLength(mm: number, units: string): string {
  if (units !== 'feet') return `${(mm / 1_000).toFixed(2)} m`
  const halves = Math.round(Math.abs(mm) / 12.7)
  const [feet, inches] = [Math.floor(halves / 24), (halves % 24) / 2]
  return `${mm < 0 && halves > 0 ? '-' : ''}${feet} ft ${inches} in`
}

export function readPlace({ xMm, yMm }: PlaceMm, from: PlaceMm | null, units: string): string {
  const place = `x ${readLength(xMm, units)}, y ${readLength(yMm, units)}`
  if (!from) return place
  return `${place}; ${readLength(Math.hypot(xMm - from.xMm, yMm - from.yMm), units)} from the mark`
}
