/** Buttons in a row that are one stop of the tab key; arrows go from one to the next. */
export function toolbar(label: string, buttons: readonly HTMLButtonElement[]): HTMLElement {
  const tools = document.createElement('div')
  tools.className = 'row-tools no-print'
  tools.setAttribute('role', 'toolbar')
  tools.setAttribute('aria-label', label)
  tools.append(...buttons)
  stopAt(buttons[0])
  tools.addEventListener('focusin', ({ target }) => {
    stopAt(buttons.find((each) => each === target))
  })
  tools.addEventListener('keydown', (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key]
    if (step === undefined) return
    const enabled = buttons.filter(({ disabled }) => !disabled)
    const at = enabled.findIndex((each) => each.matches(':focus'))
    const next = enabled[at + step]
    if (at < 0 || !next) return
    event.preventDefault()
    next.focus()
  })
  return tools

  function stopAt(stop: HTMLButtonElement | undefined): void {
    if (stop) for (const each of buttons) each.tabIndex = each === stop ? 0 : -1
  }
}
