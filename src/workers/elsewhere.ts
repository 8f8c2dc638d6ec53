/**
 * Thrown before work that would keep this thread from answering others. Whoever answers the request gives the whole of it
 * to a worker thread; nothing has been changed yet.
 */
export class Elsewhere extends Error {
  constructor() {
    super('this work belongs in a worker thread')
    this.name = 'Elsewhere'
  }
}
