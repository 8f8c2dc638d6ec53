import { notSent } from './kept.ts'
import { button, takesFile } from './places.ts'

/*
 * While a page that takes long is on its way, a line says so, for how long, and stops it: the service gives the work up
 * when nobody waits for it.
 */

/** What comes sooner needs no line. */
const PATIENCE_MS = 600

export function working(form: HTMLFormElement): void {
  let timer: number | undefined
  let line: HTMLElement | null = null

  form.addEventListener('submit', ({ submitter }) => {
    done()
    if (takesFile(submitter)) return
    const began = performance.now()
    timer = window.setTimeout(() => show(began), PATIENCE_MS)
  })
  window.addEventListener('pagehide', done)

  function show(began: number): void {
    line = document.createElement('div')
    line.className = 'working no-print'
    const seconds = document.createElement('span')
    seconds.setAttribute('aria-hidden', 'true')
    const said = document.createElement('span')
    said.setAttribute('role', 'status')
    const bar = document.createElement('progress')
    bar.setAttribute('aria-label', 'Working it out')
    line.append(bar, said, seconds, button('Stop', stop))
    document.querySelector('main')?.append(line)
    said.textContent = 'Working it out …'
    const count = () => {
      seconds.textContent = `${Math.round((performance.now() - began) / 1_000)} s`
    }
    count()
    timer = window.setInterval(count, 1_000)
  }

  function stop(): void {
    window.stop()
    notSent()
    done()
  }

  function done(): void {
    window.clearTimeout(timer)
    window.clearInterval(timer)
    line?.remove()
    line = null
  }
}
