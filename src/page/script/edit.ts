import { planForm } from './places.ts'

/**
 * The form of a plan comes when it is asked for, and the page stays as it is, its drawing zoomed in or not. Without the
 * script, or without an answer, the link leads to a page that has the form.
 */
export function editing(begin: (form: HTMLFormElement) => void): void {
  const link = document.querySelector<HTMLAnchorElement>('#work #edit a[href]')
  link?.addEventListener('click', (event) => {
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.button !== 0) return
    event.preventDefault()
    void bring(link.href).then((came) => {
      const form = planForm()
      if (came && form) begin(form)
      else window.location.assign(link.href)
    })
  })
}

async function bring(address: string): Promise<boolean> {
  try {
    const answer = await fetch(address)
    const page = new DOMParser().parseFromString(await answer.text(), 'text/html')
    const form = page.querySelector('#edit:has(form#plan > *):not(.folded)')
    if (!form) return false
    document.getElementById('edit')?.remove()
    document.getElementById('work')?.append(form)
    form.querySelector('summary')?.focus()
    return true
  } catch {
    return false
  }
}
