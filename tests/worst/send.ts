import type { WorstRequest } from './requests.ts'

export interface Sent {
  /** The name of the error if there was no answer. */
  readonly status: number | string
  readonly contentType: string
  readonly bytes: number
  readonly tookMs: number
}

/** Sends a request and reads all of its answer. */
export async function sendTo(
  url: string,
  { path, method = 'GET', headers = {}, body }: WorstRequest,
  limitMs = 90_000,
): Promise<Sent> {
  const fromMs = performance.now()
  try {
    const answer = await fetch(`${url}${path}`, {
      method,
      headers: { ...headers, ...(body && { Origin: url }) },
      redirect: 'manual',
      ...(body && { body: body() }),
      signal: AbortSignal.timeout(limitMs),
    })
    const bytes = (await answer.arrayBuffer()).byteLength
    const contentType = answer.headers.get('content-type') ?? ''
    return { status: answer.status, contentType, bytes, tookMs: performance.now() - fromMs }
  } catch (error) {
    return { status: (error as Error).name, contentType: '', bytes: 0, tookMs: performance.now() - fromMs }
  }
}
