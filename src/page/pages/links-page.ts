import type { ProjectLink } from '../../projects/store.ts'
import { type Html, html } from '../html.ts'
import { timeOf } from './saved-pages.ts'

/** A new link with the addresses of its tables, shown only once. */
interface NewLink {
  readonly label: string
  /** Whole addresses, with the token in them. */
  readonly addresses: readonly string[]
}

export interface LinksPage {
  readonly project: { readonly id: string; readonly name: string }
  readonly links: readonly ProjectLink[]
  readonly made: NewLink | null
  /** What is wrong with the request, as a sentence. */
  readonly fault: string | null
  readonly label: string
}

/** The links by which spreadsheets read the tables of a saved plan. */
export function linksPage({ project, links, made, fault, label }: LinksPage): Html {
  const action = `/plans/${project.id}/links`
  return html`<h1>Links for spreadsheets</h1>
<p>For “${project.name}”. Anyone who has a link can read the current tables of this plan and its printed sheets, and nothing else, and cannot change anything. Make a separate link for each spreadsheet so that you can revoke it. <a href="/docs/spreadsheets">How to use it</a></p>
${made && newLink(made)}
<section class="card" aria-labelledby="links"><h2 id="links">Existing links</h2>
${links.length === 0 ? html`<p class="hint">None.</p>` : html`<ul class="plans">${links.map((link) => item(link, action))}</ul>`}
</section>
<form method="post" action="${action}" class="card"><h2>New link</h2>
<div class="field"><label for="label">Purpose</label><input id="label" name="label" maxlength="100" value="${label}"${fault !== null && html` aria-invalid="true" aria-describedby="label.fault"`}>${fault !== null && html`<p class="fault" id="label.fault" role="alert">${fault}</p>`}</div>
<p class="buttons"><button class="first" name="do" value="make">Make a link</button> <a class="button" href="/plans/${project.id}">Back to the plan</a></p></form>`
}

function newLink({ label, addresses }: NewLink): Html {
  return html`<section class="card notice" aria-labelledby="made"><h2 id="made">The link “${label}”</h2>
<p><b>Copy what you need now:</b> it is shown only once and stored nowhere. Treat it like a password.</p>
<ul class="addresses">${addresses.map((address) => html`<li><code class="word">${address}</code></li>`)}</ul></section>`
}

function item({ id, label, createdAt, lastUsedAt }: ProjectLink, action: string): Html {
  return html`<li>${label} <span class="hint">made ${timeOf(createdAt)}, ${lastUsedAt === null ? 'not used yet' : html`last used ${timeOf(lastUsedAt)}`}</span>
<form method="post" action="${action}" class="inline"><input type="hidden" name="link" value="${id}"><button name="do" value="revoke" class="small danger" aria-label="Revoke ${label}">Revoke</button></form></li>`
}
