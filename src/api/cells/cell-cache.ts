import { requestIdOf, wholeResponse } from '../every-answer.ts'
import { allows } from '../request/accept.ts'
import { namesTag } from '../request/entity-tag.ts'

/** What an address answers to every client. */
export interface CachedAnswer {
  readonly text: string
  /** Its strong entity tag. */
  readonly tag: string
}

/** A large spreadsheet recalculates some thousand cells at once. */
const MOST_ENTRIES = 5_000

/** Keys and answers of all entries together; most entries take a hundred characters. */
const MOST_CHARACTERS = 2_000_000

/** No spreadsheet requests a longer address. */
const LONGEST_KEY = 2_100

const CELLS = '/v1/cell/'
const PLAIN = 'text/plain'

/** An answer changes only with the version of the service; after an upgrade, clients may use old ones for an hour. */
const FOR_AN_HOUR = 'public, max-age=3600'

/**
 * The latest answers of cells by address; the oldest are dropped first. With `errors=cell` an error is an answer like any
 * other. Refusals with a status of their own, and answers that hold only at the moment, are not cached.
 */
export class CellCache {
  private readonly answers = new Map<string, CachedAnswer>()
  private characters = 0

  get(key: string): CachedAnswer | undefined {
    return this.answers.get(key)
  }

  put(key: string, answer: CachedAnswer): void {
    if (key.length > LONGEST_KEY || this.answers.has(key)) return
    this.answers.set(key, answer)
    this.characters += lengthOf(key, answer)
    while (this.answers.size > MOST_ENTRIES || this.characters > MOST_CHARACTERS) this.dropOldest()
  }

  /** The answer of a worker thread, if it holds for every client. */
  async keep(url: string, answer: Response): Promise<void> {
    const tag = answer.headers.get('etag')
    if (!url.includes(CELLS) || answer.status !== 200 || tag === null) return
    if (answer.headers.get('cache-control') === FOR_AN_HOUR && !answer.headers.has('content-encoding'))
      this.put(cacheKey(url), { text: await answer.clone().text(), tag })
  }

  private dropOldest(): void {
    const [key, answer] = this.answers.entries().next().value!
    this.answers.delete(key)
    this.characters -= lengthOf(key, answer)
  }

  /**
   * The cached response to a request, before routing, which costs more than everything else about a cell.
   *
   * @returns null if the request has to be handled as usual
   */
  responseTo(method: string, url: string, header: (name: string) => string | null | undefined): Response | null {
    if (method !== 'GET' || !url.includes(CELLS)) return null
    const answer = this.answers.get(cacheKey(url))
    if (!answer || !allows(header('accept') ?? undefined, PLAIN)) return null
    return cachedResponse(answer, header)
  }
}

function lengthOf(key: string, { text, tag }: CachedAnswer): number {
  return key.length + text.length + tag.length
}

/** The response with a cell's answer; without a body if the client already has it. */
export function cachedResponse(
  { text, tag }: CachedAnswer,
  header: (name: string) => string | null | undefined,
): Response {
  const id = requestIdOf(header('x-request-id') ?? undefined)
  if (namesTag(header('if-none-match') ?? undefined, tag))
    return wholeResponse(id, null, 304, { ETag: tag, 'Cache-Control': FOR_AN_HOUR })
  return wholeResponse(id, text, 200, {
    'Content-Type': 'text/plain; charset=utf-8',
    'Cache-Control': FOR_AN_HOUR,
    ETag: tag,
  })
}

/** Path and query without `refresh`, which only makes a client fetch again. */
export function cacheKey(url: string): string {
  const path = url.slice(url.indexOf('/', url.indexOf('//') + 2))
  return path.includes('refresh=') ? path.replace(/([?&])refresh=[^&]*/g, '$1') : path
}
