/** More than any row: a plan has at most a megabyte. */
const LONGEST = 64 * 1024 * 1024

/**
 * The lines of a text in UTF-8 that arrives in parts, without their line breaks. (Node's readline loses what arrives before
 * it is asked.) A line of over 64 MiB is given in parts.
 */
export async function* linesOf(parts: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  const utf8 = new TextDecoder()
  let rest = ''
  for await (const part of parts) {
    const lines = (rest + utf8.decode(part, { stream: true })).split('\n')
    rest = lines.pop()!
    yield* lines
    if (rest.length < LONGEST) continue
    yield rest
    rest = ''
  }
  rest += utf8.decode()
  if (rest !== '') yield rest
}
