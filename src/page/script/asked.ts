/** What a choice of the rail asks for, by its value. */
const ASKED: Readonly<Record<string, string>> = {
  measured: '[id="rail.measured"]',
  rectangles: '.stack',
  own: '[id="rail.metal"]',
}

/** Opens the fields that a choice of the rail asks for. */
export function asking(form: HTMLFormElement): void {
  form.addEventListener('change', ({ target }) => {
    const asked =
      target instanceof HTMLSelectElement && target.name.startsWith('rail.') ? ASKED[target.value] : undefined
    const fold = asked === undefined ? null : form.querySelector<HTMLDetailsElement>(asked)
    if (fold) fold.open = true
  })
}
