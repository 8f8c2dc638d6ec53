import type { Context } from 'hono'
import type { Refusal } from '../problem.ts'
import { firstSyntaxFault } from './json-syntax.ts'

/** The largest body: enough for the largest plan allowed, with labels. */
const MOST_BYTES = 1024 * 1024

export type JsonBody =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly refusal: Refusal<'malformed-body' | 'body-too-large' | 'unsupported-body'> }

const utf8 = new TextDecoder('utf-8', { fatal: true })

/**
 * Reads a request's body as JSON in UTF-8, once.
 *
 * @param otherwise for the hint: what else this address accepts
 */
export async function readJsonBody(c: Context, otherwise = ''): Promise<JsonBody> {
  const contentType = c.req.header('content-type')
  if (contentType !== undefined && !isJson(contentType))
    return unsupported('Content-Type', `it says ${contentType.slice(0, 80)}`, otherwise)
  const body = await readBody(c)
  if (!body.ok) return body
  const { bytes } = body
  if (bytes.byteLength === 0) return malformed('the body is empty', 'send the JSON that this address requires')
  if (contentType === undefined) return unsupported('Content-Type', 'it is missing', otherwise)

  let text: string
  let value: unknown
  try {
    text = utf8.decode(bytes)
  } catch {
    return malformed('the body is not UTF-8', 'save the file as UTF-8')
  }
  try {
    value = JSON.parse(text)
  } catch {
    const fault = firstSyntaxFault(text)
    return malformed(fault?.detail ?? 'the body is not JSON', fault?.hint)
  }
  c.get('refuseLarge')?.(value)
  return { ok: true, value }
}

/** The bytes of a request's body, unless it is too large or compressed. */
export async function readBody(
  c: Context,
): Promise<
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly refusal: Refusal<'body-too-large' | 'unsupported-body'> }
> {
  const encoding = c.req.header('content-encoding')
  if (encoding !== undefined && encoding.toLowerCase() !== 'identity')
    return unsupported('Content-Encoding', `it says ${encoding.slice(0, 80)}`)
  const bytes = await readBytes(c)
  if (bytes !== 'too-large') {
    c.get('refuseBytes')?.(bytes.byteLength)
    return { ok: true, bytes: new Uint8Array(bytes) }
  }
  return refuse<'body-too-large'>({ kind: 'body-too-large', detail: `The body is over ${MOST_BYTES} bytes (1 MiB).` })
}

/** `application/json`, with no charset other than UTF-8. */
function isJson(contentType: string): boolean {
  if (contentType === 'application/json') return true
  const [type, ...parameters] = contentType.split(';').map((part) => part.trim().toLowerCase())
  const charsets = parameters.filter((parameter) => parameter.startsWith('charset='))
  return type === 'application/json' && charsets.every((charset) => /^charset="?utf-?8"?$/.test(charset))
}

/** The HTTP parser enforces a declared length; without one the bytes are counted as they arrive. */
async function readBytes(c: Context): Promise<ArrayBuffer | Uint8Array | 'too-large'> {
  const declared = c.req.header('content-length')
  if (declared !== undefined && c.req.header('transfer-encoding') === undefined)
    return Number(declared) > MOST_BYTES ? 'too-large' : c.req.arrayBuffer()
  const { body } = c.req.raw
  if (!body) return new Uint8Array()
  const chunks: Uint8Array[] = []
  let size = 0
  for await (const chunk of body) {
    size += chunk.byteLength
    if (size > MOST_BYTES) return 'too-large'
    chunks.push(chunk)
  }
  const bytes = new Uint8Array(Buffer.concat(chunks))
  // A worker thread may have to read it again.
  c.req.bodyCache.arrayBuffer = Promise.resolve(bytes.buffer) as never
  return bytes
}

function unsupported(header: 'Content-Type' | 'Content-Encoding', detail: string, otherwise = '') {
  const hint =
    header === 'Content-Type'
      ? `send the header Content-Type: application/json${otherwise}`
      : 'send the body uncompressed, without the header Content-Encoding'
  return refuse<'unsupported-body'>({
    kind: 'unsupported-body',
    detail: `The header ${header} is wrong.`,
    faults: [{ parameter: header, code: 'unsupported-body', detail, hint }],
  })
}

function malformed(detail: string, hint?: string) {
  return refuse<'malformed-body'>({
    kind: 'malformed-body',
    detail: 'The body cannot be read as JSON.',
    faults: [{ path: [], code: 'malformed-json', detail, hint }],
  })
}

function refuse<K extends 'malformed-body' | 'body-too-large' | 'unsupported-body'>(refusal: Refusal<K>) {
  return { ok: false, refusal } as const
}
