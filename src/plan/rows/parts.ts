import type { BreakKind } from './track.ts'

/** A part that fits one rail: it is counted singly, sold in packs, and kept in the shed by section and metal. */
interface RailPart {
  /** On a bill. */
  readonly item: string
  /** What one is called, and what many are. */
  readonly one: string
  readonly many: string
  /** What it is for, where its name does not say it. */
  readonly use?: string
  /** The break it is laid at; without one it is laid wherever rails meet. */
  readonly atBreak?: BreakKind
}

/** The parts that fit one rail, each written down once: the plan, the shed, the bill and the page have them from here. */
export const RAIL_PARTS = {
  joiners: { item: 'joiner', one: 'Rail joiner', many: 'Rail joiners' },
  insulatedJoiners: {
    item: 'insulated-joiner',
    one: 'Insulated joiner',
    many: 'Insulated joiners',
    atBreak: 'insulated',
  },
  transitionJoiners: {
    item: 'transition-joiner',
    one: 'Transition joiner',
    many: 'Transition joiners',
    use: 'to another rail section',
  },
  expansionJoints: {
    item: 'expansion-joint',
    one: 'Expansion joint',
    many: 'Expansion joints',
    atBreak: 'expansion-joint',
  },
} as const satisfies Record<string, RailPart>

export type RailPartName = keyof typeof RAIL_PARTS

export const RAIL_PART_NAMES = Object.keys(RAIL_PARTS) as RailPartName[]

/** The same for each of them, by name. */
export function ofRailParts<T>(of: (name: RailPartName) => T): Record<RailPartName, T> {
  return Object.fromEntries(RAIL_PART_NAMES.map((name) => [name, of(name)])) as Record<RailPartName, T>
}

/** Such as "Transition joiners, to another rail section". */
export function railPartLabel(name: RailPartName, count: 'one' | 'many'): string {
  const part: RailPart = RAIL_PARTS[name]
  return part.use ? `${part[count]}, ${part.use}` : part[count]
}

/** The break a part is laid at; null for one that is not laid at breaks. */
export function breakOf(name: RailPartName): BreakKind | null {
  const part: RailPart = RAIL_PARTS[name]
  return part.atBreak ?? null
}
