import { type Html, html } from '../html.ts'

/** A page's title and content. */
export interface Shown {
  readonly title: string
  readonly main: Html
}

function said(title: string, text: string): Shown {
  return { title, main: plainPage(title, text) }
}

/** What is said where there is nothing, or where something went wrong. */
function plainPage(title: string, text: string): Html {
  return html`<h1>${title}</h1>
<section class="card"><p>${text}</p>
<p class="buttons"><a class="button first" href="/">To the start page</a> <a class="button" href="/demo">Open the demo plan</a></p></section>`
}

export const NO_PAGE = said('There is nothing here', 'The address may be mistyped, or the page has gone.')
export const NO_PLAN = said('There is no such plan', 'It may have been deleted, or the address is not complete.')
export const NO_FORM = said('That was no form of ours', 'This address takes the form of its own page and nothing else.')
export const TOO_LARGE = said('That is too much at once', 'The form is over 8 MB. Divide the plan into several.')
export const BROKEN = said(
  'Something broke',
  'The fault is ours and is in the log. What you typed is still on the page before this one.',
)
export const NO_STORE = said(
  'The database does not answer',
  'Go back in a moment: what you typed is still on the page before this one.',
)
export const BUSY = said(
  'Too much is being worked out',
  'Go back in some seconds: what you typed is still on the page before this one. A quick cut plan is answered sooner than a thorough one.',
)
export const FOREIGN_FORM = said(
  'That form came from somewhere else',
  'Only this page’s own forms are taken, so that no other site can change your plans. Open the plan here and try again.',
)
