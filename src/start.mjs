import { build, bundle, isStale } from './build.mjs'

// One process from here on, so that a signal sent to it reaches the service.
if (isStale()) {
  console.log('Building Longchord, the first time or after a change ...')
  await build()
}
await import(bundle.href)
