import type { Fault } from '../../measure/fault.ts'
import type { TurnoutEnds } from '../fitted/turnouts/turnout-ends.ts'

/** Why no turnout can be put in at an end of a connection. */
export function noTurnoutEnd({ at, why }: Pick<Extract<TurnoutEnds, { ok: false }>, 'at' | 'why'>): Fault {
  const path = ['plan', 'tracks', ...(at ? [at.track, 'elements', at.sentAt] : [])]
  return { path, code: 'no-fit', ...WORDS[why] }
}

const WORDS: Readonly<Record<Extract<TurnoutEnds, { ok: false }>['why'], Pick<Fault, 'detail' | 'hint'>>> = {
  'none-near': {
    detail: 'no connection of this plan starts or ends on a straight of another track, within 100 mm of it',
    hint: 'give its track a start with x, y and heading, or an end with at, on a straight of a track that leaves nothing open',
  },
  'none-on-hand': {
    detail: 'no kind of turnout with a straight leg is on hand beyond those in the plan',
    hint: 'say how many there are, in turnoutTypes[].onHand',
  },
  'too-short': {
    detail:
      'the straight there is shorter than the turnouts on hand, or those lead to the other side of where the track is to go',
    hint: 'make the straight longer, turn the heading of the start or the end, or use a kind of the other hand',
  },
  'no-path': {
    detail: 'with the turnouts on hand no path can be made between the two places',
    hint: 'allow a smaller radius or shorter easements, or make the straights longer',
  },
}
