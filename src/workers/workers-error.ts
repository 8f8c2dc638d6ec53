/**
 * `full`: too much work is waiting, or this piece has waited too long, so it was not begun. `cancelled`: the client has
 * disconnected, or the service is stopping. `too-long`, `too-much-memory`, `too-large` (its answer): it was ended at a limit
 * that it would meet again.
 */
export type WorkersErrorKind = 'full' | 'cancelled' | 'too-long' | 'too-much-memory' | 'too-large'

const MESSAGES: Readonly<Record<WorkersErrorKind, string>> = {
  full: 'too much work is waiting',
  cancelled: 'the work was cancelled',
  'too-long': 'the work took too long',
  'too-much-memory': 'the work took too much memory',
  'too-large': 'the answer is too large',
}

/** Why work without faults was not done. */
export class WorkersError extends Error {
  readonly kind: WorkersErrorKind

  constructor(kind: WorkersErrorKind) {
    super(MESSAGES[kind])
    this.name = 'WorkersError'
    this.kind = kind
  }
}
