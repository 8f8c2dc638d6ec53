import { type Content, type Html, html } from '../html.ts'
import { STYLESHEET_PATH } from '../stylesheet.ts'

/** A whole document around a page's content; `head` is added to the head after the site's style sheet. */
export function documentOf(title: string, main: Content, head: Content = null): string {
  return `<!doctype html>\n${frame(title, main, head)}\n`
}

function frame(title: string, main: Content, head: Content): Html {
  return html`<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${title} · Longchord</title>
<link rel="icon" href="data:image/svg+xml,${ICON}">
<link rel="stylesheet" href="${STYLESHEET_PATH}">
${head}</head>
<body>
<a class="skip" href="#main">Skip to the content</a>
<header class="top"><div class="inside">
<a class="brand" href="/">${MARK}<span>Longchord</span></a>
<nav aria-label="Pages"><a href="/#saved">Saved plans</a> <a href="/demo">Demo plan</a> <a href="/shed">Shed</a> <a href="/check">Check a bend</a> <a href="/survey">Survey</a> <a href="/docs">Guides</a></nav>
</div></header>
<main id="main" class="inside">
${main}
</main>
<footer class="inside"><p>Longchord calculates rails, bends, cuts and costs for 45 mm garden railways. Check every figure at the bench before you cut.</p></footer>
</body>
</html>`
}

/** A bent rail over its chord, with the ordinate in the middle. */
const MARK = html`<svg viewBox="0 0 32 24" width="32" height="24" aria-hidden="true"><path class="mark-chord" d="M3 19H29M16 19V7"/><path class="mark-rail" d="M3 19Q16 -5 29 19"/></svg>`

const ICON = encodeURIComponent(
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" rx="6" fill="#2c5a43"/><path d="M4 23H28M16 23V11" stroke="#fff" stroke-width="1.6" fill="none"/><path d="M4 23Q16 -3 28 23" stroke="#f0c674" stroke-width="3.4" fill="none"/></svg>',
)
