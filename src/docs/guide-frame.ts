import { type Content, html } from '../page/html.ts'
import { documentOf } from '../page/pages/frame.ts'
import { GROUPS, GUIDES } from './guides.ts'

const STYLE = html`<link rel="stylesheet" href="/docs/docs.css">\n`

/** A guide in the frame of the site, with the list of all guides beside it. Its content includes the h1. */
export function guideDocument(name: string, content: Content, head: Content = null): string {
  const { title } = GUIDES.find((guide) => guide.name === name)!
  return documentOf(
    title,
    html`<div class="guide">
<article>
<p class="hint up no-print"><a href="/docs">All guides</a></p>
${content}
</article>
${guideList(name)}
</div>`,
    html`${STYLE}${head}`,
  )
}

function guideList(present: string) {
  return html`<nav class="guides no-print" aria-label="Guides">
${GROUPS.map(
  ({ title, guides }) =>
    html`<p>${title}</p><ul>${guides.map(
      ({ name, title }) =>
        html`<li><a href="/docs/${name}"${name === present && html` aria-current="page"`}>${title}</a></li>`,
    )}</ul>\n`,
)}</nav>`
}

/** What `/docs` shows: every guide with what it answers. */
export function guideIndex(): string {
  return documentOf(
    'Guides',
    html`<h1>Guides</h1>
<p class="lead">The <a href="/">page</a> explains itself as you fill it in. These guides go further: they say what each part works out and
how a program or a spreadsheet gets the same. Looking for one request? Go to <a href="/docs/api">the interface</a>.</p>
<div class="guide-groups">
${GROUPS.map(
  ({ title, guides }) => html`<section class="card"><h2>${title}</h2><dl>
${guides.map(({ name, title, about }) => html`<dt><a href="/docs/${name}">${title}</a></dt><dd>${about}</dd>\n`)}</dl></section>\n`,
)}</div>
<p class="hint">All of this works without internet. The interface as an OpenAPI document: <a href="/openapi.json">openapi.json</a>.</p>`,
    STYLE,
  )
}
