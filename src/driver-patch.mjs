/*
 * Repairs of postgres 3.4.9 (src/connection.js), applied while the service is bundled. Its issues 1066, 1154 and 1208
 * describe the fault: a connection that closes while a write waits for the next turn of the event loop either throws where
 * nobody can catch it, which ends the process, or never sends anything again. To be removed with the release that has it
 * repaired; the build fails when the driver's text is no longer the one below.
 */
const REPAIRS = [
  {
    what: 'a write after the connection has closed fails its queries instead of the process',
    before: `  function nextWrite(fn) {
    const x = socket.write(chunk, fn)
    nextWriteTimer !== null && clearImmediate(nextWriteTimer)
    chunk = nextWriteTimer = null
    return x
  }`,
    after: `  function nextWrite(fn) {
    nextWriteTimer !== null && clearImmediate(nextWriteTimer)
    const unsent = chunk
    chunk = nextWriteTimer = null
    if (socket === null) {
      error(Errors.connection('CONNECTION_CLOSED', options, socket))
      query = null
      return true
    }
    return socket.write(unsent, fn)
  }`,
  },
  {
    what: 'ending a connection leaves nothing to send',
    before: `    clearImmediate(nextWriteTimer)
    if (socket) {`,
    after: `    clearImmediate(nextWriteTimer)
    chunk = nextWriteTimer = null
    if (socket) {`,
  },
  {
    what: 'a closed connection leaves nothing to send',
    before: `    clearImmediate(nextWriteTimer)
    socket.removeListener('data', data)`,
    after: `    clearImmediate(nextWriteTimer)
    chunk = nextWriteTimer = null
    socket.removeListener('data', data)`,
  },
  {
    what: 'a connection that closes on an error fails also what was sent after the error',
    before: `    !hadError && (query || sent.length) && error(`,
    after: `    ;(query || sent.length) && error(`,
  },
]

/** The text of the driver's connection with all repairs. Throws when a place is not there exactly once. */
export function repaired(text) {
  return REPAIRS.reduce((so, { what, before, after }) => {
    if (so.split(before).length !== 2) throw new Error(`The PostgreSQL driver cannot be repaired: ${what}.`)
    return so.replace(before, () => after)
  }, text)
}
