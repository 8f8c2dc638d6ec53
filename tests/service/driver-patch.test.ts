import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { expect, test } from 'vitest'
// @ts-expect-error: plain JavaScript, because the build runs before anything is built
import { repaired } from '../../src/driver-patch.mjs'

const driver = readFileSync(
  createRequire(import.meta.url)
    .resolve('postgres')
    .replace(/cjs(.)src.index\.js$/, 'src$1connection.js'),
  'utf8',
)

test('the repairs of the PostgreSQL driver fit the installed version, once each', () => {
  const text: string = repaired(driver)
  expect(text).not.toBe(driver)
  expect(text.split('chunk = nextWriteTimer = null')).toHaveLength(4)
  expect(() => repaired(text)).toThrow(/cannot be repaired: a write after the connection has closed/)
  expect(() => repaired('')).toThrow(/cannot be repaired/)
})
