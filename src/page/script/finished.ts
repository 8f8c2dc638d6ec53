/*
 * Ticks of bench cards. Each is shown at once and kept in the browser until the service has it, so that a network that
 * is away for a while takes none.
 */

interface Tick {
  readonly action: string
  readonly card: string
  readonly done: boolean
}

const KEY = 'longchord ticks'
const AGAIN_MS = 5_000

export function finishing(): void {
  const forms = [...document.querySelectorAll<HTMLFormElement>('form.finish')]
  let timer: number | undefined
  let sending = false
  for (const { action, card, done } of waiting()) {
    const form = forms.find((each) => new URL(each.action).pathname === action && cardOf(each) === card)
    if (form) showTick(form, done)
  }
  for (const form of forms)
    form.addEventListener('submit', (event) => {
      const done = !isDone(form)
      const action = new URL(form.action).pathname
      const card = cardOf(form)
      const others = waiting().filter((tick) => tick.action !== action || tick.card !== card)
      // Where the browser keeps nothing, the form is sent as without a script.
      if (!keep([...others, { action, card, done }])) return
      event.preventDefault()
      showTick(form, done)
      if (done) comeTo(form)
      void send()
    })
  window.addEventListener('online', () => void send())
  void send()
  showCount()

  async function send(): Promise<void> {
    if (sending) return
    sending = true
    window.clearTimeout(timer)
    try {
      for (let [tick] = waiting(); tick; [tick] = waiting()) {
        const { action, card, done } = tick
        const body = new URLSearchParams({ card, done: done ? 'yes' : 'no' })
        const answer = await fetch(action, { method: 'POST', body, redirect: 'manual' })
        const isKept = answer.type === 'opaqueredirect' || answer.ok
        // 404: the plan or its revision is no more. Everything else may be otherwise after a while.
        if (!isKept && answer.status !== 404) throw new Error(String(answer.status))
        keep(waiting().filter((each) => each.action !== action || each.card !== card || each.done !== done))
      }
    } catch {
      timer = window.setTimeout(() => void send(), AGAIN_MS)
    }
    sending = false
    showCount()
  }

  function comeTo(form: HTMLFormElement): void {
    const open = forms.filter((each) => !isDone(each))
    const next = open.find((each) => forms.indexOf(each) > forms.indexOf(form)) ?? open[0]
    next?.closest('.job')?.scrollIntoView({ block: 'start' })
    next?.querySelector('button')?.focus({ preventScroll: true })
  }

  function showCount(): void {
    const line = document.querySelector('.finished-count')
    if (!line) return
    const left = waiting().length
    const kept =
      left === 0 ? '' : ` ${left} ${left === 1 ? 'tick is' : 'ticks are'} kept here until the network is back.`
    line.textContent = `${forms.filter(isDone).length} of ${forms.length} cards done.${kept}`
  }
}

function waiting(): Tick[] {
  try {
    const ticks: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]')
    return Array.isArray(ticks) ? ticks : []
  } catch {
    return []
  }
}

/** Whether the browser has it. */
function keep(ticks: readonly Tick[]): boolean {
  try {
    localStorage.setItem(KEY, JSON.stringify(ticks))
    return true
  } catch {
    return false
  }
}

function cardOf(form: HTMLFormElement): string {
  return form.querySelector<HTMLInputElement>('[name="card"]')?.value ?? ''
}

function isDone(form: HTMLFormElement): boolean {
  return form.querySelector('button')?.getAttribute('aria-pressed') === 'true'
}

function showTick(form: HTMLFormElement, done: boolean): void {
  const button = form.querySelector('button')
  button?.setAttribute('aria-pressed', String(done))
  if (button) button.value = done ? 'no' : 'yes'
  form.closest('.job')?.classList.toggle('finished', done)
}
