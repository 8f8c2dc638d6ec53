import { announce, type Control, isTyped, placeInForm, rowsOf } from './places.ts'

/*
 * While one types, the form is sent in the background, and what it comes to stands beside it: the drawing, totals and
 * findings, or what is wrong so far.
 */

/** After the last key. A service that takes longer is asked less often. */
const LEAST_PAUSE_MS = 50
const MOST_PAUSE_MS = 2_000
/** What comes sooner needs no sign that it is on its way. */
const SIGN_AFTER_MS = 300
/** Whoever goes on typing is not told what is still missing. */
const PATIENCE_MS = 900

/** Sent to whatever has to look at new results: the drawing, what is chosen. */
export const RESULTS = 'results'

export function follow(form: HTMLFormElement, live: HTMLElement): void {
  const action = new URL(form.action).pathname
  const address = `${action === '/' ? '' : action}/preview`
  let pauseMs = LEAST_PAUSE_MS
  let timer: number | undefined
  let running: AbortController | null = null
  const sign = signAbove(live)

  form.addEventListener('input', () => {
    window.clearTimeout(timer)
    timer = window.setTimeout(() => void ask(), pauseMs)
  })
  form.addEventListener('submit', () => {
    window.clearTimeout(timer)
    running?.abort()
  })
  const edit = document.getElementById('edit')
  edit?.addEventListener('toggle', () => layOut(live))
  layOut(live)

  async function ask(): Promise<void> {
    running?.abort()
    running = null
    if (!hasElements(form)) return sign.off()
    sign.on()
    const mine = new AbortController()
    running = mine
    const began = performance.now()
    try {
      const { signal } = mine
      const answer = await fetch(address, { method: 'POST', body: typedIn(form), signal, redirect: 'error' })
      const part = await answer.text()
      pauseMs = Math.min(MOST_PAUSE_MS, Math.max(LEAST_PAUSE_MS, performance.now() - began))
      if (mine === running) sign.off()
      if (!answer.ok) await new Promise((goOn) => window.setTimeout(goOn, PATIENCE_MS))
      if (mine !== running) return
      if (answer.ok || answer.status === 422) show(part, answer.ok)
    } catch {
      // Cancelled, or the network is away: what is shown stays, and the next key asks again.
      if (mine === running) sign.off()
    }
  }

  function show(part: string, isWhole: boolean): void {
    stayingInPlace(() => {
      live.querySelector('.errors, .notice')?.remove()
      if (isWhole) live.innerHTML = part
      else live.insertAdjacentHTML('afterbegin', part)
      markFaults(form, live)
      layOut(live)
    })
    const told = isWhole ? live.querySelector('.summary') : live.querySelector('h2')
    announce(told?.textContent?.replace(/\s+/g, ' ').trim() ?? '', 'followed')
    live.dispatchEvent(new Event(RESULTS, { bubbles: true }))
  }
}

/**
 * A sign that what is shown is of before, where the answer takes a while. It stays from one key to the next as long as an
 * answer is still to come, and takes no room.
 */
function signAbove(live: HTMLElement): { on: () => void; off: () => void } {
  let timer: number | undefined
  return {
    on() {
      if (timer !== undefined) return
      timer = window.setTimeout(() => {
        live.classList.add('redrawing')
        live.setAttribute('aria-busy', 'true')
        announce('Working it out …', 'followed')
      }, SIGN_AFTER_MS)
    },
    off() {
      window.clearTimeout(timer)
      timer = undefined
      live.classList.remove('redrawing')
      live.removeAttribute('aria-busy')
    },
  }
}

/** Whether there is anything to be drawn: before that, nothing is missing either. */
function hasElements(form: HTMLFormElement): boolean {
  return [...form.querySelectorAll<HTMLTableElement>('table.elements')].some((table) => rowsOf(table).some(isTyped))
}

/** The fields of the form that are filled in: blank ones say nothing. */
export function typedIn(form: HTMLFormElement): URLSearchParams {
  const entries = [...new FormData(form)].filter(
    (entry): entry is [string, string] => typeof entry[1] === 'string' && entry[1] !== '' && entry[0] !== 'do',
  )
  return new URLSearchParams(entries)
}

/** Beside each other as long as both are there to see. */
function layOut(live: HTMLElement): void {
  const edit = document.getElementById('edit')
  const isOpen = edit instanceof HTMLDetailsElement ? edit.open : edit?.classList.contains('folded') === false
  live.parentElement?.classList.toggle('beside', isOpen && live.childElementCount > 0)
}

/** Changes the page without moving what has the focus. */
function stayingInPlace(change: () => void): void {
  const focused = document.activeElement
  const before = focused?.getBoundingClientRect().top
  change()
  if (!focused?.isConnected || before === undefined) return
  window.scrollBy({ top: focused.getBoundingClientRect().top - before, behavior: 'instant' })
}

/** Marks the fields with faults, and those alone. */
function markFaults(form: HTMLFormElement, live: HTMLElement): void {
  for (const old of form.querySelectorAll('[aria-invalid]')) {
    old.removeAttribute('aria-invalid')
    describe(old, null)
  }
  for (const note of form.querySelectorAll('tr.notes, .fault')) note.remove()
  for (const row of form.querySelectorAll('tr.faulty')) row.classList.remove('faulty')
  for (const [n, link] of live.querySelectorAll<HTMLAnchorElement>('.errors li > a').entries()) {
    const place = placeInForm(decodeURIComponent(link.hash.slice(1)))
    const control = form.elements.namedItem(place)
    const item = link.parentElement
    if (!item || !(control instanceof HTMLInputElement || control instanceof HTMLSelectElement)) continue
    item.id = `live-fault-${n}`
    mark(control, item.id)
    link.addEventListener('click', (event) => {
      event.preventDefault()
      control.focus()
    })
  }
}

function mark(control: Control, noteId: string): void {
  control.setAttribute('aria-invalid', 'true')
  describe(control, noteId)
}

/** The hint of a field stays; notes about its faults come and go. */
function describe(control: Element, noteId: string | null): void {
  const before = control.getAttribute('aria-describedby')?.split(' ') ?? []
  const ids = [...before.filter((id) => id.endsWith('.hint')), ...(noteId === null ? [] : [noteId])]
  if (ids.length === 0) control.removeAttribute('aria-describedby')
  else control.setAttribute('aria-describedby', ids.join(' '))
}
