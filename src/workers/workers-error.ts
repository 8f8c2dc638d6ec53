/**
 * `full`: so much work is waiting that this piece was not taken. `given-up`: whoever asked has gone, or the service is
 * stopping.
 */
export type SearchErrorKind = 'full' | 'given-up'

/** Why work was not done that nothing is wrong with. */
export class WorkersError extends Error {
  readonly kind: SearchErrorKind

  constructor(kind: SearchErrorKind) {
    super(kind === 'full' ? 'too much work is waiting' : 'the work was given up')
    this.name = 'WorkersError'
    this.kind = kind
  }
}
