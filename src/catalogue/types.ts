/**
 * A rail section, mm. The names of its parts, from the ground up: foot, web, head. `estimated` tells that the height,
 * foot or head width is a proportion rather than a published figure; `estimatedFields` lists every number that is.
 */
export interface RailSection {
  readonly id: string
  readonly name: string
  readonly heightMm: number
  readonly headWidthMm: number
  readonly footWidthMm: number
  readonly webThicknessMm: number
  readonly headDepthMm: number
  readonly footDepthMm: number
  readonly source: string
  readonly estimated: boolean
  readonly estimatedFields: readonly string[]
}

/**
 * A material's condition. Yield is 0.2 % proof, or 0.5 % extension for copper alloys. `estimated` tells that no figure
 * was seen in a source; `estimatedFields` lists every one that was not.
 */
export interface Temper {
  readonly id: string
  readonly name: string
  readonly youngsModulusGpa: number
  readonly yieldMpa: number
  readonly tensileMpa: number
  readonly elongationPct: number
  /** Exponent of the Ramberg–Osgood law e = s/E + 0.002 (s/yield)^n. */
  readonly rambergOsgoodN: number
  readonly expansionPerK: number
  readonly densityKgM3: number
  readonly resistivityOhmM: number
  readonly source: string
  readonly rambergOsgoodSource: string
  readonly estimated: boolean
  readonly estimatedFields: readonly string[]
}

export interface Material {
  readonly id: string
  readonly name: string
  readonly tempers: readonly Temper[]
  /** The temper whose density stands for the material when none is named. */
  readonly usualTemper: string
  readonly source: string
  readonly estimated: boolean
}
