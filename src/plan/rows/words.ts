import { choice, count, flag, price, text } from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'

/* Fields that several parts of a plan share. */

export const label = text({
  component: 'Label',
  longest: 200,
  says: 'A remark of your own, repeated in the answer',
  label: 'Remark',
})

const turnWords = { left: 'Left', right: 'Right' } as const

export const packSize = (label: string) =>
  count({
    component: 'PackSize',
    least: 1,
    most: LIMITS.pieces,
    usual: 1,
    because: 'sold singly',
    says: 'Pieces in one pack',
    label,
  })

export const onHand = (label = 'On hand') =>
  count({
    component: 'OnHand',
    least: 0,
    most: LIMITS.pieces,
    usual: 0,
    because: 'nothing in the shed',
    says: 'Pieces already on hand',
    label,
  })

export const buyable = flag({ usual: true, because: 'not marked otherwise', label: 'Can be bought' })

export const priceOfPack = (label = 'Price per pack') => price({ label })

/** Which way, seen along the track from its start. */
export const turnSpec = {
  component: 'Turn',
  words: turnWords,
  what: 'a turn',
  says: 'Which way the curve turns, seen along the track from its start',
  label: 'Turn',
} as const

export const turn = choice({ ...turnSpec, required: true })
