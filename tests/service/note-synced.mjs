import { closeSync, fstatSync, openSync, writeSync } from 'node:fs'
import { open } from 'node:fs/promises'

/*
 * Loaded into the service by --import: writes down how long each file was when it was brought to the disk, so that a test
 * can throw away all the rest. A file that is renamed keeps its number.
 */
const handle = await open(process.argv[1], 'r')
const FileHandle = Object.getPrototypeOf(handle)
await handle.close()
const notes = openSync(process.env.SYNCED, 'a')
for (const name of ['datasync', 'sync']) {
  const original = FileHandle[name]
  FileHandle[name] = async function () {
    const { ino, size } = fstatSync(this.fd)
    await original.call(this)
    writeSync(notes, `${ino} ${size}\n`)
  }
}
process.on('exit', () => closeSync(notes))
