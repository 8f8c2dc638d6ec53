#!/usr/bin/env node
import { build, isStale } from './build.mjs'

// What is built says nothing on standard output, which is the answer's.
if (isStale()) await build()
await import(new URL('../dist/longchord.js', import.meta.url).href)
