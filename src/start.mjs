import { build, bundle, isStale } from './build.mjs'

// One process from here on, so that a signal sent to it reaches the service.
if (isStale()) {
  console.log('Building Longchord, because it is new or has changed ...')
  await build()
}

// npm runs this in a shell and passes a SIGTERM on to that shell only, which it ends. The service would keep running, with
// its port and folder, so the end of the shell counts as the signal.
if (process.env.npm_lifecycle_event !== undefined) {
  const shell = process.ppid
  const watch = setInterval(() => {
    if (process.ppid === shell) return
    clearInterval(watch)
    process.kill(process.pid, 'SIGTERM')
  }, 500)
  watch.unref()
}

await import(bundle.href)
