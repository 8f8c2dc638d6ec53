import { build, isStale } from './build.mjs'

if (isStale()) await build()
await import(new URL('../dist/restore.js', import.meta.url).href)
