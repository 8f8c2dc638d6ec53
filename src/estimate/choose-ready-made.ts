import { billOf } from '../laying/bill.ts'
import { centsOf } from '../measure/money.ts'
import { sum } from '../measure/sum.ts'
import { type CoverableElements, coverableElements } from './coverable.ts'
import type { Choice } from './coverage.ts'
import { type LaidOut, type LaidOutOrNot, layOut, type Site } from './lay-out.ts'
import type { Effort } from './plan.ts'

/** What a plan is made of in the end. */
export type ChosenLayOut =
  | {
      readonly ok: true
      readonly laidOut: LaidOut
      readonly elements: CoverableElements
      readonly choice: Choice
      /** The same of loose rail alone, at a quick effort; null where that cannot be. */
      readonly loose: LaidOut | null
    }
  | { readonly ok: false; readonly short: { readonly missingMm: number; readonly trimmed: boolean } }

/** So many ways to mix loose rail and ready-made pieces are worked out; each takes a cut plan. */
const MOST_TRIED: Readonly<Record<Effort, number>> = { quick: 12, thorough: 100 }
/** Of very large plans fewer, by the number of elements that can be covered. */
const ELEMENTS_TRIED = 6_000
const LEAST_TRIED = 4

/**
 * Makes new track of loose rail and ready-made pieces: wherever pieces fit, nowhere, or where the bill is lowest.
 *
 * Elements of the same curve are decided together, every mix of them where there are few, otherwise one curve after
 * another; then single elements are tried the other way, the longest first, until none is of use. The bill is that of rail, pieces, joiners, ties and fasteners,
 * whole packs, less what is on hand; of two mixes that cost the same the one with more ready-made track is taken. Nothing is
 * bought that has no price, nor compared with rail that has none: then only what is on hand is used.
 */
export function chooseReadyMade(site: Site): ChosenLayOut {
  const { effort, supplies } = site.plan
  const asked = supplies.panels.length > 0 && supplies.readyMade !== 'never'
  const elements = asked ? coverableElements(site.laid, site.plan) : NO_ELEMENTS
  const nothing: Choice = elements.coverable.map(() => null)
  const mixer = new Mixer(site, elements)
  const choice =
    nothing.length === 0
      ? nothing
      : ((supplies.readyMade === 'always' ? everywhere(mixer, elements) : cheapest(mixer, elements)) ?? nothing)
  const loose = mixer.layOut(nothing)
  const laid = effort === 'quick' && mixer.has(choice) ? mixer.layOut(choice) : layOut(site, elements, choice, effort)
  if (!laid.ok) return { ok: false, short: laid.short! }
  return { ok: true, laidOut: laid.laidOut, elements, choice, loose: loose.ok ? loose.laidOut : null }
}

const NO_ELEMENTS: CoverableElements = { kinds: [], coverable: [], left: [] }

/** What a mix comes to, the lesser the better: rail bought that has no price, then money, then less ready-made track. */
type Worth = readonly [number, number, number]

/** Works out mixes, each once. */
class Mixer {
  private readonly known = new Map<string, LaidOutOrNot>()
  private readonly site: Site
  private readonly elements: CoverableElements
  private left: number

  constructor(site: Site, elements: CoverableElements) {
    this.site = site
    this.elements = elements
    const most = Math.floor(ELEMENTS_TRIED / Math.max(1, elements.coverable.length))
    this.left = Math.min(MOST_TRIED[site.plan.effort], Math.max(LEAST_TRIED, most))
  }

  get tired(): boolean {
    return this.left <= 0
  }

  has(choice: Choice): boolean {
    return this.known.has(choice.join())
  }

  layOut(choice: Choice): LaidOutOrNot {
    const key = choice.join()
    const known = this.known.get(key)
    if (known) return known
    this.left--
    const laid = layOut(this.site, this.elements, choice, 'quick')
    this.known.set(key, laid)
    return laid
  }

  /** Null where it cannot be laid, or with `compared` where it buys what cannot be compared. */
  worth(choice: Choice, compared: boolean): Worth | null {
    const laid = this.layOut(choice)
    if (!laid.ok) return null
    const { supplies } = this.site.plan
    const railPriced = supplies.sticks.every(({ price, buyable }) => price !== null || !buyable)
    const { lines, total } = billOf(laid.laidOut.lines, supplies)
    const bought = lines.filter(({ item, packs }) => item === 'panel' && packs > 0)
    if (compared && bought.some(({ amount }) => amount === null || !railPriced)) return null
    const unpricedMm = lines
      .filter(({ item, amount }) => item === 'rail-stick' && amount === null)
      .map(({ packs, packSize, lengthMm }) => packs * packSize * lengthMm!)
    const coveredMm = laid.laidOut.covered.stretches.map(({ fromMm, toMm }) => toMm - fromMm)
    return [sum(unpricedMm), centsOf(total), -sum(coveredMm)]
  }
}

/** Elements of one curvature, which the same kinds of pieces fit. */
function groupsOf({
  coverable,
}: CoverableElements): { readonly members: number[]; readonly kinds: readonly number[] }[] {
  const groups = new Map<string, { members: number[]; kinds: readonly number[] }>()
  for (const [index, { kinds }] of coverable.entries()) {
    const group = groups.get(kinds.join())
    if (group) group.members.push(index)
    else groups.set(kinds.join(), { members: [index], kinds })
  }
  return [...groups.values()]
}

function cheapest(mixer: Mixer, elements: CoverableElements): Choice | null {
  const groups = groupsOf(elements)
  const best = new Best(mixer, true)
  best.take(elements.coverable.map(() => null))
  byGroup(
    best,
    groups.map(({ members, kinds }) => ({ members, options: [null, ...kinds] })),
  )
  // What lies on hand goes furthest where it covers most.
  const longestFirst = elements.coverable
    .map(({ kinds, parts }, index) => ({ index, kinds, lengthMm: parts.at(-1)!.toMm - parts[0]!.fromMm }))
    .sort((a, b) => b.lengthMm - a.lengthMm)
  for (let before: Choice | null = null; before !== best.choice; ) {
    before = best.choice
    for (const { index, kinds } of longestFirst)
      for (const option of [null, ...kinds]) {
        if (mixer.tired) return best.choice
        best.take(best.choice.with(index, option))
      }
  }
  return best.choice
}

/** Every element by one of its kinds; where there are too few pieces, one element after another as long as they last. */
function everywhere(mixer: Mixer, elements: CoverableElements): Choice | null {
  const groups = groupsOf(elements)
  const best = new Best(mixer, false)
  const first: (number | null)[] = elements.coverable.map(({ kinds }) => kinds[0]!)
  best.take(first)
  byGroup(
    best,
    groups.map(({ members, kinds }) => ({ members, options: kinds })),
  )
  if (best.found) return best.choice
  let choice: Choice = elements.coverable.map(() => null)
  for (const { members, kinds } of groups)
    for (const kind of kinds) {
      const all = choice.map((each, index) => (members.includes(index) ? kind : each))
      if (mixer.layOut(all).ok) choice = all
      else
        for (const index of members) {
          if (choice[index] !== null || mixer.tired) continue
          const more = choice.with(index, kind)
          if (mixer.layOut(more).ok) choice = more
        }
    }
  return choice
}

/** The best mix so far. */
class Best {
  choice: Choice = []
  private worth: Worth | null = null
  private readonly mixer: Mixer
  private readonly compared: boolean

  constructor(mixer: Mixer, compared: boolean) {
    this.mixer = mixer
    this.compared = compared
  }

  get found(): boolean {
    return this.worth !== null
  }

  take(choice: Choice): void {
    const worth = this.mixer.worth(choice, this.compared)
    if (this.choice.length === 0) this.choice = choice
    if (!worth || (this.worth && compareWorth(worth, this.worth) >= 0)) return
    this.worth = worth
    this.choice = choice
  }
}

interface Group {
  readonly members: readonly number[]
  readonly options: readonly (number | null)[]
}

/** Every mix of the groups' options where they are few; otherwise group after group. */
function byGroup(best: Best, groups: readonly Group[]): void {
  const ways = groups.reduce((product, { options }) => product * options.length, 1)
  if (ways <= MOST_MIXES) {
    for (let n = 0; n < ways; n++) {
      let rest = n
      let choice = best.choice
      for (const { members, options } of groups) {
        choice = put(choice, members, options[rest % options.length]!)
        rest = Math.floor(rest / options.length)
      }
      best.take(choice)
    }
    return
  }
  for (const { members, options } of groups) for (const option of options) best.take(put(best.choice, members, option))
}

const MOST_MIXES = 8

function put(choice: Choice, members: readonly number[], option: number | null): Choice {
  const at = new Set(members)
  return choice.map((each, index) => (at.has(index) ? option : each))
}

function compareWorth(a: Worth, b: Worth): number {
  for (const [n, value] of a.entries()) if (value !== b[n]) return value - b[n]!
  return 0
}
