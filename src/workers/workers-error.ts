/**
 * `full`: too much work is waiting, so this piece was not accepted. `cancelled`: the client has disconnected, or the service
 * is stopping.
 */
export type WorkersErrorKind = 'full' | 'cancelled'

/** Why work without faults was not done. */
export class WorkersError extends Error {
  readonly kind: WorkersErrorKind

  constructor(kind: WorkersErrorKind) {
    super(kind === 'full' ? 'too much work is waiting' : 'the work was cancelled')
    this.name = 'WorkersError'
    this.kind = kind
  }
}
