import { execFileSync, spawnSync } from 'node:child_process'
import { cpSync, readFileSync, symlinkSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { newFolder } from './running.ts'

const top = new URL('../..', import.meta.url).pathname
const { bin: bins, types } = JSON.parse(readFileSync(join(top, 'package.json'), 'utf8')) as {
  bin: { longchord: string }
  types: string
}
const bin = bins.longchord
const plan = readFileSync(join(top, 'openapi/examples/quarter-loop.json'), 'utf8')

/** Runs the program in a folder, with a plan as standard input. */
function longchord(folder: string, program: string, ...words: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    cwd: folder,
    input: plan,
    env: { PATH: process.env.PATH! },
  })
  return { status, stdout, text: stdout.toString(), stderr: stderr.toString() }
}

test('the command line of a checkout runs from any folder, and reads a file or a pipe', () => {
  const folder = newFolder()
  const program = join(top, bin)
  cpSync(join(top, 'openapi/examples/three-faults.json'), join(folder, 'faults.json'))
  const piped = longchord(folder, program, 'estimate', '--fields', 'bill')
  expect([piped.status, piped.stderr]).toEqual([0, ''])
  expect(JSON.parse(piped.text).bill.total).toBe('147.50')
  const refused = longchord(folder, program, 'estimate', 'faults.json')
  expect([refused.status, refused.text]).toEqual([1, ''])
  expect(refused.stderr).toContain('/tracks/0/elements/2/lenght: ')
}, 60_000)

/** What is packed was built by the test before. */
test('the package that npm packs has what the command line needs, and no sources or tests', () => {
  const folder = newFolder()
  const packed = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', folder], {
    cwd: top,
    encoding: 'utf8',
  })
  const [{ filename, files }] = JSON.parse(packed.slice(packed.indexOf('['))) as [
    { filename: string; files: { path: string }[] },
  ]
  const paths = files.map(({ path }) => path)
  expect(paths).toEqual(
    expect.arrayContaining(['README.md', 'LICENSE', 'dist/longchord.js', 'dist/main.js', types, bin]),
  )
  expect(paths.filter((path) => /^tests|^src.*\.ts$/.test(path))).toEqual([])
  execFileSync('tar', ['-xzf', filename], { cwd: folder })
  symlinkSync(join(top, 'node_modules'), join(folder, 'package/node_modules'))
  const program = join(folder, 'package', bin)
  expect(JSON.parse(longchord(folder, program, 'estimate', '--fields', 'bill').text).bill.total).toBe('147.50')
  const sheets = longchord(folder, program, 'sheets', '--for', 'shop')
  expect([sheets.status, sheets.stderr, sheets.text.slice(0, 5)]).toEqual([0, '', '%PDF-'])
}, 120_000)
