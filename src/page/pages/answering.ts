import type { Context } from 'hono'
import { html } from '../html.ts'
import { SCRIPT_PATH } from '../script-file.ts'
import { documentOf } from './frame.ts'
import type { Shown } from './plain-pages.ts'

/** Shared by all endpoints of the page: reading posted forms and answering with a page. */

export type ShownStatus = 200 | 401 | 403 | 404 | 409 | 413 | 415 | 421 | 422 | 429 | 500 | 503 | 507

export function show(c: Context, { title, main }: Shown, status: ShownStatus = 200): Response {
  return c.html(documentOf(title, main, SCRIPT_TAG), status)
}

const SCRIPT_TAG = html`<script src="${SCRIPT_PATH}" defer></script>\n`

/** The fields of a posted form, in either encoding, without files. */
export async function fieldsOf(c: Context): Promise<Map<string, string> | null> {
  const contentType = c.req.header('content-type') ?? ''
  if (/^application\/x-www-form-urlencoded\b/i.test(contentType))
    return fieldsIn(new URLSearchParams(UTF8.decode(await formBytes(c))))
  if (!/^multipart\/form-data\b/i.test(contentType)) return null
  const form = await formDataOf(c)
  return form && fieldsIn([...form].filter((entry): entry is [string, string] => typeof entry[1] === 'string'))
}

/** Field by field: of very many, an array of all would take the memory twice. */
function fieldsIn(entries: Iterable<[string, string]>): Map<string, string> {
  const fields = new Map<string, string>()
  for (const [name, text] of entries) {
    fields.set(name, text)
    if (fields.size > MOST_FIELDS) break
  }
  return fields
}

/** The file that was chosen in a field; null if none was. */
export async function fileIn(c: Context, field: string): Promise<Uint8Array | null> {
  const form = /^multipart\/form-data\b/i.test(c.req.header('content-type') ?? '') ? await formDataOf(c) : null
  const value = form?.get(field)
  if (value == null || typeof value === 'string' || value.size === 0) return null
  return new Uint8Array(await value.arrayBuffer())
}

/** A plan of the largest size has fewer in its form. */
const MOST_FIELDS = 150_000

const UTF8 = new TextDecoder()

/** The body as it was sent, which a worker thread may have to read again. */
async function formBytes(c: Context): Promise<ArrayBuffer> {
  const bytes = await c.req.arrayBuffer()
  c.get('refuseBytes')?.(bytes.byteLength)
  return bytes
}

/** Null if the body does not match its content type. */
async function formDataOf(c: Context): Promise<FormData | null> {
  const bytes = await formBytes(c)
  try {
    const type = c.req.header('content-type')!
    return await new Response(bytes, { headers: { 'Content-Type': type } }).formData()
  } catch {
    return null
  }
}

/** Removes NUL, which a database cannot store. */
export function plainText(text: string | undefined): string {
  return (text ?? '').replaceAll('\0', '')
}
