import type { Expected } from '../../projects/store.ts'

/** A project's strong entity tag: its revision, quoted. */
export function entityTagOf(revision: number): string {
  return `"${revision}"`
}

interface EntityTag {
  readonly weak: boolean
  readonly opaque: string
}

const TAG = /(W\/)?"([\x21\x23-\x7e\x80-\xff]*)"/y
const SEPARATOR = /[ \t]*(?:,[ \t]*)+|[ \t]*$/y

/** `*`, or a list of entity tags (RFC 9110, section 8.8.3); null when it is neither. */
function readTags(header: string): '*' | EntityTag[] | null {
  if (header.trim() === '*') return '*'
  const tags: EntityTag[] = []
  let at = /^[ \t,]*/.exec(header)![0].length
  while (at < header.length) {
    TAG.lastIndex = at
    const tag = TAG.exec(header)
    if (!tag) return null
    SEPARATOR.lastIndex = TAG.lastIndex
    const separator = SEPARATOR.exec(header)
    if (!separator) return null
    tags.push({ weak: tag[1] !== undefined, opaque: tag[2]! })
    at = SEPARATOR.lastIndex
  }
  return tags.length === 0 ? null : tags
}

const REVISION = /^[1-9]\d{0,9}$/

/**
 * The revisions that an If-Match header allows to be replaced. Comparison is strong, so weak tags match nothing, and
 * neither do tags that this service did not make. Null if the header is malformed.
 */
export function readIfMatch(header: string): Expected | null {
  const tags = readTags(header)
  if (tags === null) return null
  if (tags === '*') return 'any'
  return tags.filter(({ weak, opaque }) => !weak && REVISION.test(opaque)).map(({ opaque }) => Number(opaque))
}

/** Whether an If-None-Match header names this revision. Comparison is weak; a malformed header names nothing. */
export function namesRevision(ifNoneMatch: string | undefined, revision: number): boolean {
  return namesTag(ifNoneMatch, entityTagOf(revision))
}

/** Whether an If-None-Match header names this tag, weak or strong. */
export function namesTag(ifNoneMatch: string | undefined, tag: string): boolean {
  if (ifNoneMatch === undefined) return false
  const tags = readTags(ifNoneMatch)
  const wanted = tag.replace(/^W\//, '').slice(1, -1)
  return tags === '*' || (tags?.some(({ opaque }) => opaque === wanted) ?? false)
}
