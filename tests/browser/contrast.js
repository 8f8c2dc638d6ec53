/**
 * Runs in the page: texts whose colour does not stand out from the ground they stand on by 4.5 to 1 (WCAG 2.2, 1.4.3;
 * relative luminance as defined there). The ground is the nearest opaque one outwards; translucent colours over it are
 * not reckoned with, nor is what a drawing has beneath its letters, which is given here by the shape's class.
 */
;(() => {
  const channel = (value) => (value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4)
  const parts = (color) => (color.match(/[\d.]+/g) ?? []).map(Number)
  const luminance = (color) => {
    const [red, green, blue] = parts(color).map((value) => channel(value / 255))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
  }
  const isOpaque = (color) => color !== 'transparent' && (parts(color)[3] ?? 1) === 1
  const groundOf = (element) => {
    const shape = element.matches('svg .number')
      ? element.previousElementSibling
      : element.matches('svg .sign text')
        ? element.parentElement.firstElementChild
        : element.matches('svg .piece-mark')
          ? element.closest('svg').querySelector('.unrolled')
          : null
    if (shape) return getComputedStyle(shape).fill
    for (let at = element; at; at = at.parentElement) {
      const ground = getComputedStyle(at).backgroundColor
      if (isOpaque(ground)) return ground
    }
    return 'rgb(255,255,255)'
  }
  const faults = []
  let seen = 0
  for (const element of document.querySelectorAll('body *')) {
    const own = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent?.trim())
    const box = element.getBoundingClientRect()
    if (!own || box.width < 2 || box.height < 2) continue
    seen++
    const style = getComputedStyle(element)
    const ink = element instanceof SVGElement ? style.fill : style.color
    const [a, b] = [luminance(ink), luminance(groundOf(element))]
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05)
    if (ratio < 4.5)
      faults.push(
        `${ratio.toFixed(2)} ${element.tagName}.${element.getAttribute('class')}: ${element.textContent?.slice(0, 30)}`,
      )
  }
  if (seen < 50) faults.push(`only ${seen} texts seen`)
  return faults.slice(0, 10)
})()
