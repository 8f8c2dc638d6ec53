import type { MessagePort } from 'node:worker_threads'
import { Piscina, transferableSymbol, valueSymbol } from 'piscina'
import type { PlainAnswer } from './open-workers.ts'

/** Calls the thread at the other end of a port, which answers each call; see `openWorkers`. */
export function callsOver(port: MessagePort): (asked: unknown) => Promise<unknown> {
  const waiting = new Map<number, (answer: unknown) => void>()
  let last = 0
  port.on('message', ({ id, answer }: { id: number; answer: unknown }) => {
    waiting.get(id)?.(answer)
    waiting.delete(id)
    // A port that is listened to keeps its thread alive.
    if (waiting.size === 0) port.unref()
  })
  port.unref()
  return (asked) =>
    new Promise((resolve) => {
      last += 1
      waiting.set(last, resolve)
      port.ref()
      port.postMessage({ id: last, asked })
    })
}

/** An answer whose bytes are handed over to the thread that asked, not copied. */
export function handedOver(answer: PlainAnswer): PlainAnswer {
  if (answer.body === null) return answer
  return Piscina.move({ [transferableSymbol]: [answer.body.buffer], [valueSymbol]: answer } as never) as never
}
