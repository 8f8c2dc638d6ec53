import { type Cell, choice, endTick, length, lengths, number, price, tick, words } from './cells.ts'

export type Values = Readonly<Record<string, unknown>>

/** What the form shows of one object of a plan: its cells, its groups of cells, its tables. */
export interface Shape {
  readonly cells: Readonly<Record<string, Cell>>
  readonly groups?: Readonly<Record<string, Shape>>
  readonly tables?: Readonly<Record<string, Shape>>
  /** Where the form's fields differ from the plan's: to the form's and back. One is the inverse of the other. */
  readonly toFields?: (wire: Values) => Values
  readonly toWire?: (fields: Values) => Values
}

/** The choices in the list of sections that stand for six numbers of one's own, and for a stack of rectangles. */
export const MEASURED = 'measured'
export const STACKED = 'rectangles'

/** The choice in the list of metals that stands for one given by its numbers. */
export const OWN_METAL = 'own'

const pack = { packSize: number, pricePerPack: price, onHand: number, sparePct: number }

/** A metal by its numbers; what bears neither on bending, mass nor current has no field. */
const metal: Shape = {
  cells: {
    youngsModulusGpa: number,
    yieldMpa: number,
    elongationPct: number,
    densityKgM3: number,
    resistivityOhmM: number,
  },
  groups: { hardening: { cells: { model: choice(), n: number, tangentModulusGpa: number } } },
}

const rail: Shape = {
  cells: { section: choice(), material: choice(), temper: choice() },
  groups: {
    metal,
    measured: {
      cells: {
        height: length,
        headWidth: length,
        footWidth: length,
        webThickness: length,
        headDepth: length,
        footDepth: length,
      },
    },
  },
  tables: {
    rectangles: { cells: { width: length, height: length } },
    calibration: {
      cells: {
        formedRadius: length,
        restingRadius: length,
        depth: length,
        turns: number,
        chord: length,
        ordinate: length,
      },
    },
  },
  toFields: ({ section, material, ...wire }) => ({
    ...wire,
    ...sectionFields(section),
    ...(isObject(material) ? { material: OWN_METAL, metal: material } : material !== undefined && { material }),
  }),
  toWire: ({ section, measured, rectangles, material, metal: numbers, ...fields }) => {
    const own =
      section === MEASURED ? (measured ?? {}) : section === STACKED ? { rectangles: rectangles ?? [] } : section
    const ofMetal = material === OWN_METAL ? (numbers ?? {}) : material
    return {
      ...fields,
      ...(own !== undefined && { section: own }),
      ...(ofMetal !== undefined && { material: ofMetal }),
    }
  },
}

function sectionFields(section: unknown): Values {
  if (!isObject(section)) return section === undefined ? {} : { section }
  const isStack = Array.isArray(section.rectangles) && Object.keys(section).length === 1
  return isStack ? { section: STACKED, rectangles: section.rectangles } : { section: MEASURED, measured: section }
}

/** A curve's size stands in one field with a choice beside it; the plan has a field for each. */
const curveSize = {
  cells: { across: length, acrossIs: choice('diameter'), angle: number },
  toFields: (wire: Values): Values => {
    const acrossIs = 'diameter' in wire ? 'diameter' : 'radius' in wire ? 'radius' : null
    if (!acrossIs) return wire
    const { [acrossIs]: across, ...fields } = wire
    return { ...fields, across, acrossIs }
  },
  toWire: ({ across, acrossIs = 'diameter', ...fields }: Values): Values =>
    across === undefined ? fields : { ...fields, [String(acrossIs)]: across },
} satisfies Shape

const element: Shape = {
  ...curveSize,
  cells: { kind: choice(), length, ...curveSize.cells, turn: choice(), label: words },
}

/** A ready-made piece: its length, or the size of its curve and its angle. */
const panel: Shape = {
  ...curveSize,
  cells: {
    name: words,
    length,
    ...curveSize.cells,
    ties: number,
    joiners: number,
    price,
    packSize: number,
    onHand: number,
    buyable: tick(true),
  },
}

/** A temperature stands in its field as a length does: a bare number, or with its unit. */
const temperature = length

const climate: Shape = {
  cells: { laying: temperature, coldest: temperature, hottest: temperature, sunAllowance: temperature },
}

const joints: Shape = {
  cells: {
    arrangement: choice(),
    stagger: length,
    betweenTies: tick(false),
    kind: choice(),
    held: tick(false),
    gapLimit: length,
    expansionJointLimit: length,
    insulatorThickness: length,
  },
}

const track: Shape = {
  cells: { name: words, label: words, state: choice(), closed: tick(false) },
  groups: {
    start: { cells: { x: length, y: length, heading: number, elevation: length } },
    joinsExisting: { cells: { start: endTick, end: endTick } },
  },
  tables: {
    elements: element,
    gradeLine: { cells: { at: length, elevation: length } },
    breaks: { cells: { at: length, kind: choice() } },
    keepOut: { cells: { from: length, to: length, reason: words } },
  },
}

const supplies: Shape = {
  cells: { currency: words, taxRatePct: number, readyMade: choice(), kerf: length, minimumPiece: length },
  groups: {
    joiners: { cells: pack },
    transitionJoiners: { cells: pack },
    ties: {
      cells: { ...pack, spacing: length, fastenersPerTie: number, jointTies: tick(false) },
      groups: {
        perLength: { cells: { count: number, length } },
        strip: { cells: { ties: number, price, packSize: number, onHand: number, sparePct: number } },
      },
    },
    fasteners: { cells: pack },
    insulatedJoiners: { cells: pack },
    expansionJoints: { cells: pack },
  },
  tables: {
    sticks: { cells: { length, price, packSize: number, onHand: number, buyable: tick(true) } },
    panels: panel,
  },
}

const bender: Shape = {
  cells: {
    work: choice(),
    span: length,
    outerRollerRadius: length,
    bearsOn: choice(),
    mode: choice(),
    maxPerPass: length,
    screwPitch: length,
    ends: choice(),
    fixedEnd: choice(),
  },
  groups: { limits: { cells: { overbendRatio: number, grip: length, handForceN: number, jointFlat: length } } },
}

const standards: Shape = {
  cells: {
    minimumRadius: length,
    maximumGradePct: number,
    longestCar: length,
    minimumTangentBetweenReverseCurves: length,
    closureGap: length,
    closureHeading: number,
  },
}

const roadbed: Shape = {
  cells: {
    kind: choice(),
    crownWidth: length,
    depthUnderTie: length,
    shoulderSlope: number,
    filledTo: choice(),
    shrinkagePct: number,
    densityKgM3: number,
  },
  groups: {
    tie: { cells: { length, width: length, height: length } },
    bag: { cells: { volumeL: number, massKg: number, price, onHand: number, sparePct: number } },
  },
}

const power: Shape = {
  cells: {
    currentA: number,
    supplyVoltageV: number,
    maximumDropPct: number,
    maximumDropV: number,
    jointResistanceOhm: number,
  },
  groups: {
    feeder: { cells: { awg: number, areaMm2: number, length, pricePerM: price, onHand: length, sparePct: number } },
  },
}

const extra: Shape = {
  cells: { item: words, per: choice(), quantity: number, price, packSize: number, onHand: number },
}

/** A plan as the form shows it. That there is no current in the rails has no field: it says as much as leaving all blank. */
export const planShape: Shape = {
  cells: { title: words, gauge: length, chords: lengths, resolution: length, effort: choice() },
  groups: { rail, bender, climate, joints, supplies, standards, roadbed, power },
  tables: { tracks: track, extras: extra },
  toFields: ({ power: supply, ...wire }) =>
    isObject(supply) || supply === undefined
      ? { ...wire, ...(supply && { power: supply }) }
      : { ...wire, noPower: supply },
  toWire: ({ noPower, ...fields }) => (noPower === undefined || fields.power ? fields : { ...fields, power: noPower }),
}

export function isObject(value: unknown): value is Values {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
