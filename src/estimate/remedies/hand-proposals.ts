import type { Patch } from '../../fitting/json-patch.ts'
import { listAt } from '../../plan/reading/value-at.ts'
import type { TurnoutType } from '../../plan/rows/turnouts.ts'
import type { Line } from './line.ts'

const OTHER_HAND = { left: 'right', right: 'left', wye: 'wye' } as const

/** For a track that does not meet its leg: the turnout at either end of it built to the other hand. */
export function handProposals(line: Line, track: number): Patch[] {
  const { start, end } = line.plan.tracks[track]!
  const names = new Set([start.from?.turnout, end?.to?.turnout])
  return line.tracks.flatMap(({ turnouts }, on) =>
    turnouts
      .filter(({ name }) => names.has(name))
      .flatMap(({ type, element }) => otherHand(type, `/tracks/${on}/elements/${element}/type`, line)),
  )
}

/** A kind of the plan that is the same but for its hand; else the kind turned over, or a new one beside it if others use it. */
function otherHand(id: string, path: string, line: Line): Patch[] {
  const { turnoutTypes } = line.plan
  const at = turnoutTypes.findIndex((type) => type.id === id)
  const type = turnoutTypes[at]!
  if (type.hand === 'wye') return []
  const hand = OTHER_HAND[type.hand]
  const twin = turnoutTypes.find((other) => other.hand === hand && sizeOf(other) === sizeOf(type))
  if (twin) return [[{ op: 'replace', path, value: twin.id }]]
  const uses = line.tracks.flatMap(({ turnouts }) => turnouts).filter((turnout) => turnout.type === id).length
  if (uses === 1) return [[{ op: 'replace', path: `/turnoutTypes/${at}/hand`, value: hand }]]
  const sent = listAt(line.sent, ['turnoutTypes'])[at] as Readonly<Record<string, unknown>>
  const { onHand: _, ...bought } = sent
  const name = freeId(`${id}, ${hand}`, turnoutTypes)
  return [
    [
      { op: 'add', path: '/turnoutTypes/-', value: { ...bought, id: name, hand } },
      { op: 'replace', path, value: name },
    ],
  ]
}

/** What two kinds must have in common to take the same place but for their hand. */
function sizeOf({
  id: _id,
  hand: _hand,
  price: _price,
  onHand: _onHand,
  buyable: _buyable,
  ...size
}: TurnoutType): string {
  return JSON.stringify(size)
}

export function freeId(wanted: string, types: readonly { readonly id: string }[]): string {
  let id = wanted
  for (let n = 2; types.some((type) => type.id === id); n++) id = `${wanted} ${n}`
  return id
}
