import { existsSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { expect, test } from 'vitest'

const TOP = resolve(import.meta.dirname, '../..')

/** Licences under which a package may be given on with the service. */
const ALLOWED = [
  ...['0BSD', 'Apache-2.0', 'BSD-2-Clause', 'BSD-3-Clause', 'BlueOak-1.0.0', 'CC0-1.0', 'ISC', 'MIT', 'MIT-0'],
  ...['PostgreSQL', 'Unlicense', 'Zlib'],
  // Fonts may be embedded and passed on with anything, but not sold alone.
  'Bitstream-Vera',
]

/** Packages that name their licence in words alone, and what it is (by its text). */
const IN_WORDS: Readonly<Record<string, string>> = { 'dejavu-fonts-ttf': 'Bitstream-Vera', 'png-js': 'MIT' }

/** The licence of a package as an SPDX expression; null if it says none. */
function licenceOf(said: unknown): string | null {
  const { license, licenses } = said as { license?: string | { type?: string }; licenses?: { type?: string }[] }
  return (typeof license === 'string' ? license : (license?.type ?? licenses?.[0]?.type)) ?? null
}

/** Whether one of the choices of an expression is allowed, and everything in it that has to be kept together. */
function isAllowed(expression: string): boolean {
  const choices = expression.replace(/^\((.*)\)$/, '$1').split(' OR ')
  return choices.some((choice) => choice.split(' AND ').every((part) => ALLOWED.includes(part.replace(/[()]/g, ''))))
}

/** Installed packages that `npm install --omit=dev` installs, too. */
function productionPackages(): { name: string; licence: string | null }[] {
  const lock = JSON.parse(readFileSync(join(TOP, 'package-lock.json'), 'utf8')) as {
    packages: Record<string, { dev?: boolean; devOptional?: boolean }>
  }
  return Object.entries(lock.packages).flatMap(([path, { dev, devOptional }]) => {
    const manifest = join(TOP, path, 'package.json')
    if (path === '' || dev || devOptional || !existsSync(manifest)) return []
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length)
    return [{ name, licence: IN_WORDS[name] ?? licenceOf(JSON.parse(readFileSync(manifest, 'utf8'))) }]
  })
}

test('every package that the service runs with has a licence that allows it', () => {
  const packages = productionPackages()
  expect(packages.length).toBeGreaterThan(30)
  expect(packages.filter(({ licence }) => licence === null || !isAllowed(licence))).toEqual([])
})

test('a licence that does not would be seen', () => {
  expect(['MIT', '(MIT OR GPL-3.0)', 'GPL-2.0 OR ISC', 'MIT AND ISC'].map(isAllowed)).toEqual([true, true, true, true])
  expect(['GPL-3.0', 'MIT AND GPL-3.0', 'SEE LICENSE IN LICENSE', 'AGPL-3.0-only', ''].map(isAllowed)).toEqual(
    Array(5).fill(false),
  )
  expect(licenceOf({ licenses: [{ type: 'MIT' }] })).toBe('MIT')
  expect(licenceOf({})).toBeNull()
})
