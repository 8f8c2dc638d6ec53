import { billOf } from '../../laying/bill.ts'
import { workFor } from '../../laying/cutting/effort.ts'
import { type LaidOut, type LaidOutOrNot, layOut } from '../cutting/lay-out.ts'
import type { Site } from '../cutting/site.ts'
import { type CoverableElements, coverableElements } from './coverable.ts'
import type { Choice } from './coverage.ts'
import { compareWorth, Mixer, type Worth, worthOf } from './mixer.ts'

/** The final choice for a plan. */
export type ChosenLayOut =
  | {
      readonly ok: true
      readonly laidOut: LaidOut
      readonly elements: CoverableElements
      readonly choice: Choice
      /** The same with loose rail only; null where that is not possible. */
      readonly loose: LaidOut | null
    }
  | { readonly ok: false; readonly short: { readonly missingMm: number; readonly trimmed: boolean } }

/**
 * Makes new track of loose rail and ready-made pieces: wherever pieces fit, nowhere, or where the bill is lowest.
 *
 * If there are few mixes, all are tried. Otherwise elements of the same curve are decided together, one curve after
 * another; then single elements are changed, the longest first, and pairs are exchanged, until nothing
 * improves. Mixes are compared by rough cut plans; only the chosen one, and loose rail alone, are planned with the
 * plan's own effort. The bill is that of rail, pieces, joiners, ties and fasteners, whole packs, less what is on hand;
 * of two mixes that cost the same the one with more ready-made track is chosen. Pieces without a price are not bought
 * or compared with rail without a price: then only what is on hand is used.
 *
 * Checked in tests/estimate/ready-made.test.ts, by hand and against every mix of small plans.
 */
export function chooseReadyMade(site: Site): ChosenLayOut {
  const { effort, supplies } = site.plan
  const asked = supplies.panels.length > 0 && supplies.readyMade !== 'never'
  const elements = asked ? coverableElements(site.laid, site.plan) : NO_ELEMENTS
  const nothing: Choice = elements.coverable.map(() => null)
  // Loose rail, the comparison of mixes and the chosen mix share the work of the plan.
  const work = workFor(effort)
  const share = work.left / 3
  const ofLoose = { left: nothing.length === 0 ? work.left : share }
  const loose = layOut(site, elements, nothing, effort, ofLoose)
  const mixing = { left: share }
  const always = supplies.readyMade === 'always'
  const mixer = new Mixer(site, elements, mixing, !always)
  const choose = always ? coverEverything : cheapest
  const choice = nothing.length === 0 ? nothing : (choose(mixer, elements) ?? nothing)
  const mixed = choice.every((each) => each === null)
    ? loose
    : layOut(site, elements, choice, effort, { left: share + Math.max(0, ofLoose.left) + Math.max(0, mixing.left) })
  const laid = always || !costsMore(mixed, loose, site) ? { of: mixed, choice } : { of: loose, choice: nothing }
  if (!laid.of.ok) return { ok: false, short: laid.of.short! }
  return { ok: true, laidOut: laid.of.laidOut, elements, choice: laid.choice, loose: loose.ok ? loose.laidOut : null }
}

/** Whether a mix costs more than loose rail, now that both are planned thoroughly. */
function costsMore(mixed: LaidOutOrNot, loose: LaidOutOrNot, { plan }: Site): boolean {
  if (mixed === loose || !loose.ok) return false
  const worth = (laid: LaidOut) => worthOf(laid, billOf(laid.lines, plan.supplies))
  return !mixed.ok || compareWorth(worth(mixed.laidOut), worth(loose.laidOut)) > 0
}

const NO_ELEMENTS: CoverableElements = { kinds: [], coverable: [], left: [] }

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
  const best = new Best(mixer)
  best.take(elements.coverable.map(() => null))
  const single = elements.coverable.map(({ kinds }, index) => ({ members: [index], options: [null, ...kinds] }))
  if (everyMix(best, single)) return best.choice
  const groups = groupsOf(elements).map(({ members, kinds }) => ({ members, options: [null, ...kinds] }))
  if (!everyMix(best, groups)) oneByOne(best, groups)
  // What is on hand is best used where it covers most.
  const lengthMm = ({ parts }: CoverableElements['coverable'][number]) => parts.at(-1)!.toMm - parts[0]!.fromMm
  const longestFirst = single.toSorted(
    (a, b) => lengthMm(elements.coverable[b.members[0]!]!) - lengthMm(elements.coverable[a.members[0]!]!),
  )
  for (let before: Choice | null = null; before !== best.choice && !mixer.outOfTries; ) {
    before = best.choice
    oneByOne(best, longestFirst)
    if (before === best.choice) exchange(best, elements)
  }
  return best.choice
}

/** Exchanges two elements of one curve. */
function exchange(best: Best, elements: CoverableElements): void {
  for (const { members } of groupsOf(elements))
    for (const [n, one] of members.entries())
      for (const other of members.slice(n + 1)) {
        if (best.mixer.outOfTries) return
        if (best.choice[one] === best.choice[other]) continue
        best.take(best.choice.with(one, best.choice[other]!).with(other, best.choice[one]!))
      }
}

/**
 * Covers every element with one of its kinds; if there are too few pieces, one element after another while they last.
 */
function coverEverything(mixer: Mixer, elements: CoverableElements): Choice | null {
  const groups = groupsOf(elements)
  const best = new Best(mixer)
  const first: (number | null)[] = elements.coverable.map(({ kinds }) => kinds[0]!)
  best.take(first)
  const options = groups.map(({ members, kinds }) => ({ members, options: kinds }))
  if (!everyMix(best, options)) oneByOne(best, options)
  if (best.found) return best.choice
  let choice: Choice = elements.coverable.map(() => null)
  for (const { members, kinds } of groups)
    for (const kind of kinds) {
      const all = choice.map((each, index) => (members.includes(index) ? kind : each))
      if (mixer.try(all).ok) choice = all
      else
        for (const index of members) {
          if (choice[index] !== null || mixer.outOfTries) continue
          const more = choice.with(index, kind)
          if (mixer.try(more).ok) choice = more
        }
    }
  return choice
}

/** The best mix so far. */
class Best {
  choice: Choice = []
  private worth: Worth | null = null
  readonly mixer: Mixer

  constructor(mixer: Mixer) {
    this.mixer = mixer
  }

  get found(): boolean {
    return this.worth !== null
  }

  /** Keeps a mix if it is better; does nothing once the tries are used up. */
  take(choice: Choice): void {
    if (this.mixer.outOfTries && this.choice.length > 0) return
    const { worth } = this.mixer.try(choice, this.worth)
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

/** Every mix of the groups' options, unless they are too many. */
function everyMix(best: Best, groups: readonly Group[]): boolean {
  const ways = groups.reduce((product, { options }) => product * options.length, 1)
  if (ways > best.mixer.more) return false
  for (let n = 0; n < ways; n++) {
    let rest = n
    let choice = best.choice
    for (const { members, options } of groups) {
      choice = withOption(choice, members, options[rest % options.length]!)
      rest = Math.floor(rest / options.length)
    }
    best.take(choice)
  }
  return true
}

/** The best option of one group after another. */
function oneByOne(best: Best, groups: readonly Group[]): void {
  for (const { members, options } of groups)
    for (const option of options) {
      if (best.mixer.outOfTries) return
      best.take(withOption(best.choice, members, option))
    }
}

function withOption(choice: Choice, members: readonly number[], option: number | null): Choice {
  const at = new Set(members)
  return choice.map((each, index) => (at.has(index) ? option : each))
}
