import { build, bundle, isStale } from './build.mjs'

// One process from here on, so that a signal sent to it reaches the service.
if (isStale()) {
  console.log('Building Longchord, the first time or after a change ...')
  await build()
}

// npm runs this below a shell and sends a SIGTERM of its own on to that shell alone, which dies of it. A service left
// behind would keep the port and the folder, so the end of the shell counts as the signal.
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
