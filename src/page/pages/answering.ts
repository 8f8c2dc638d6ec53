import type { Context } from 'hono'
import { documentOf } from './frame.ts'
import type { Shown } from './plain-pages.ts'

/** Shared by all endpoints of the page: reading posted forms and answering with a page. */

export type ShownStatus = 200 | 401 | 403 | 404 | 409 | 413 | 415 | 421 | 422 | 429 | 500 | 503 | 507

export function show(c: Context, { title, main }: Shown, status: ShownStatus = 200): Response {
  return c.html(documentOf(title, main), status)
}

/** The fields of a posted form, in either encoding, without files. */
export async function fieldsOf(c: Context): Promise<Map<string, string> | null> {
  const contentType = c.req.header('content-type') ?? ''
  if (/^application\/x-www-form-urlencoded\b/i.test(contentType))
    return new Map(new URLSearchParams(await c.req.text()))
  if (!/^multipart\/form-data\b/i.test(contentType)) return null
  const form = await formDataOf(c)
  return form && new Map([...form].filter((entry): entry is [string, string] => typeof entry[1] === 'string'))
}

/** The file that was chosen in a field; null if none was. */
export async function fileIn(c: Context, field: string): Promise<Uint8Array | null> {
  const form = /^multipart\/form-data\b/i.test(c.req.header('content-type') ?? '') ? await formDataOf(c) : null
  const value = form?.get(field)
  if (value == null || typeof value === 'string' || value.size === 0) return null
  return new Uint8Array(await value.arrayBuffer())
}

/** Null if the body does not match its content type. */
async function formDataOf(c: Context): Promise<FormData | null> {
  try {
    return await c.req.formData()
  } catch {
    return null
  }
}

/** Removes NUL, which a database cannot store. */
export function plainText(text: string | undefined): string {
  return (text ?? '').replaceAll('\0', '')
}
