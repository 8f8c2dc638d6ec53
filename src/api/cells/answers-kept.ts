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

/** No spreadsheet asks with a longer address. */
const LONGEST_KEPT = 2_100

const CELLS = '/v1/cell/'
const PLAIN = 'text/plain'

/** A calculation is the same tomorrow, as long as the service is: an hour is as long as an old one may live on. */
const FOR_AN_HOUR = 'public, max-age=3600'

/** The numbers that cells were answered last, by what was asked; the oldest go first. What was refused is not kept. */
export class AnswersKept {
  private readonly answers = new Map<string, KeptAnswer>()

  get(asked: string): KeptAnswer | undefined {
    return this.answers.get(asked)
  }

  put(asked: string, answer: KeptAnswer): void {
    if (asked.length > LONGEST_KEPT || this.answers.has(asked)) return
    if (this.answers.size >= MOST_KEPT) this.answers.delete(this.answers.keys().next().value!)
    this.answers.set(asked, answer)
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
