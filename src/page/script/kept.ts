import { typedIn } from './follow.ts'
import { button, takesFile } from './places.ts'

/*
 * What is typed is kept in the browser until it is saved, and offered back where the form does not have it any more.
 */

interface Kept {
  /** When it was typed, in milliseconds. */
  readonly at: number
  readonly fields: string
}

const PAUSE_MS = 400
/** Fields that say nothing of the plan. */
const BESIDE = ['show', 'shownIn', 'revision']
/** Set while a form is on its way: the page that answers it has what was typed. */
const SENT = 'longchord sent'

export function keeping(form: HTMLFormElement): void {
  const key = keyOf(new URL(form.action).pathname)
  const sent = sessionStorage.getItem(SENT)
  sessionStorage.removeItem(SENT)
  const kept = read(key)
  // A saved plan that is shown as it was saved: what was typed is in it.
  if (sent !== null && form.hasAttribute('data-saved')) localStorage.removeItem(sent)
  else if (sent === key) keep()
  else if (kept && plain(kept.fields) !== plain(typedIn(form).toString())) offer(kept)

  let timer: number | undefined
  form.addEventListener('input', () => {
    window.clearTimeout(timer)
    timer = window.setTimeout(keep, PAUSE_MS)
  })
  form.addEventListener('submit', ({ submitter }) => {
    window.clearTimeout(timer)
    keep()
    // A file is taken along: the page stays.
    if (takesFile(submitter)) return
    sessionStorage.setItem(SENT, key)
  })
  window.addEventListener('pagehide', () => {
    if (timer !== undefined) keep()
  })

  function keep(): void {
    try {
      localStorage.setItem(key, JSON.stringify({ at: Date.now(), fields: typedIn(form).toString() } satisfies Kept))
    } catch {
      // The browser keeps nothing here, or has no room: everything else works as before.
    }
  }

  function offer(kept: Kept): void {
    document.querySelector('.kept')?.remove()
    const line = noticeOf(kept)
    line.append(
      button('Restore', () => putBack(kept.fields)),
      ' ',
      button('Discard', () => {
        localStorage.removeItem(key)
        line.remove()
      }),
    )
    document.getElementById('work')?.before(line)
  }

  /** Sent as a form, so that the service makes the page of it. */
  function putBack(fields: string): void {
    const again = document.createElement('form')
    again.method = 'post'
    again.action = form.action
    again.hidden = true
    for (const [name, value] of [...new URLSearchParams(fields), ['do', 'work'] as const]) {
      const field = document.createElement('textarea')
      field.name = name
      field.value = value
      again.append(field)
    }
    document.body.append(again)
    sessionStorage.setItem(SENT, key)
    again.submit()
  }
}

/** The form is not on its way any more. */
export function notSent(): void {
  sessionStorage.removeItem(SENT)
}

function keyOf(path: string): string {
  return `longchord typed ${path}`
}

/** On the page that a new plan starts from: leads to what was typed of one. */
export function keptHere(): void {
  const kept = read(keyOf('/'))
  if (!kept) return
  const line = noticeOf(kept)
  const link = document.createElement('a')
  link.href = '/new'
  link.textContent = 'Continue'
  line.append(link)
  document.getElementById('start')?.before(line)
}

function noticeOf({ at }: Kept): HTMLElement {
  const line = document.createElement('p')
  line.className = 'card notice kept no-print'
  line.setAttribute('role', 'status')
  line.append(`Unsaved changes from ${when(new Date(at))}: `)
  return line
}

function read(key: string): Kept | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key) ?? 'null')
    if (typeof kept !== 'object' || kept === null) return null
    const { at, fields } = kept as Partial<Kept>
    return typeof at === 'number' && typeof fields === 'string' ? { at, fields } : null
  } catch {
    return null
  }
}

/** The fields of the plan alone, in an order of their own. */
function plain(fields: string): string {
  const entries = [...new URLSearchParams(fields)].filter(([name]) => !BESIDE.includes(name))
  return JSON.stringify(entries.toSorted(([a], [b]) => (a < b ? -1 : 1)))
}

function when(time: Date): string {
  const clock = time.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })
  return time.toDateString() === new Date().toDateString() ? clock : `${time.toLocaleDateString()}, ${clock}`
}
