import { readFile, writeFile } from 'node:fs/promises'
import { buffer } from 'node:stream/consumers'
import { run } from './command/run.ts'

// What reads the answer may have enough before its end, as `head` has.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error
})

process.exitCode = await run(process.argv.slice(2), {
  async read(file) {
    if (file === null && process.stdin.isTTY) throw new Error('nothing is piped into it; name a file')
    return new Uint8Array(file === null ? await buffer(process.stdin) : await readFile(file))
  },
  async write(file, bytes) {
    if (file !== null) return writeFile(file, bytes)
    await new Promise((resolve) => process.stdout.write(bytes, resolve))
  },
  complain: (text) => process.stderr.write(`${text}\n`),
  isScreen: process.stdout.isTTY,
})
