import { isProjectId } from '../../projects/ids.ts'

/** A cursor contains the id of the last project of the previous page; clients must not rely on that. */
export function cursorAfter(id: string): string {
  return Buffer.from(`after:${id}`).toString('base64url')
}

/** The id inside a cursor, or null if this service did not make it. */
export function readCursor(cursor: string): string | null {
  const id = /^after:(.*)$/.exec(Buffer.from(cursor, 'base64url').toString('latin1'))?.[1]
  return id !== undefined && isProjectId(id) && cursorAfter(id) === cursor ? id : null
}
