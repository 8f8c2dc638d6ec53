import { requestIdOf, wholeResponse } from '../every-answer.ts'
import { allows } from '../request/accept.ts'
import { namesTag } from '../request/entity-tag.ts'

/** What an address answers, whoever asks. */
export interface KeptAnswer {
  readonly text: string
  /** Its strong entity tag. */
  readonly tag: string
}

/** So many answers are kept: a large spreadsheet recalculates some thousand cells at once. */
const MOST_KEPT = 5_000

/** All of them together, with what was asked, in characters; most take a hundred. */
const MOST_CHARACTERS = 2_000_000

/** No spreadsheet asks with a longer address. */
const LONGEST_KEPT = 2_100

const CELLS = '/v1/cell/'
const PLAIN = 'text/plain'

/** A calculation is the same tomorrow, as long as the service is: an hour is as long as an old one may live on. */
const FOR_AN_HOUR = 'public, max-age=3600'

/**
 * What cells were answered last, by what was asked; the oldest go first. With `errors=cell` what is wrong is an answer like
 * any other; what is refused with a status, or is not so a moment later, is not kept.
 */
export class AnswersKept {
  private readonly answers = new Map<string, KeptAnswer>()
  private characters = 0

  get(asked: string): KeptAnswer | undefined {
    return this.answers.get(asked)
  }

  put(asked: string, answer: KeptAnswer): void {
    if (asked.length > LONGEST_KEPT || this.answers.has(asked)) return
    this.answers.set(asked, answer)
    this.characters += lengthOf(asked, answer)
    while (this.answers.size > MOST_KEPT || this.characters > MOST_CHARACTERS) this.dropOldest()
  }

  private dropOldest(): void {
    const [asked, answer] = this.answers.entries().next().value!
    this.answers.delete(asked)
    this.characters -= lengthOf(asked, answer)
  }

  /**
   * What can be answered at once, before any address is looked up: that costs more than all the rest of a cell.
   *
   * @returns null where the request has to go the usual way
   */
  atOnce(method: string, url: string, header: (name: string) => string | null | undefined): Response | null {
    if (method !== 'GET' || !url.includes(CELLS)) return null
    const answer = this.answers.get(askedIn(url))
    if (!answer || !allows(header('accept') ?? undefined, PLAIN)) return null
    return answerWith(answer, header)
  }
}

function lengthOf(asked: string, { text, tag }: KeptAnswer): number {
  return asked.length + text.length + tag.length
}

/** A cell's answer; empty for whoever has it. */
export function answerWith({ text, tag }: KeptAnswer, header: (name: string) => string | null | undefined): Response {
  const id = requestIdOf(header('x-request-id') ?? undefined)
  if (namesTag(header('if-none-match') ?? undefined, tag))
    return wholeResponse(id, null, 304, { ETag: tag, 'Cache-Control': FOR_AN_HOUR })
  return wholeResponse(id, text, 200, {
    'Content-Type': 'text/plain; charset=utf-8',
    'Cache-Control': FOR_AN_HOUR,
    ETag: tag,
  })
}

/** Path and query, without what only forces a new fetch. */
export function askedIn(url: string): string {
  const asked = url.slice(url.indexOf('/', url.indexOf('//') + 2))
  return asked.includes('refresh=') ? asked.replace(/([?&])refresh=[^&]*/g, '$1') : asked
}
