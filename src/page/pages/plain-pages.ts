import { type Html, html } from '../html.ts'

/** A page's title and content. */
export interface Shown {
  readonly title: string
  readonly main: Html
}

function message(title: string, text: string): Shown {
  return { title, main: plainPage(title, text) }
}

/** A page with one message. */
function plainPage(title: string, text: string): Html {
  return html`<h1>${title}</h1>
<section class="card"><p>${text}</p>
<p class="buttons"><a class="button first" href="/">Go to the start page</a> <a class="button" href="/demo">Open the demo plan</a></p></section>`
}

export const NO_PAGE = message('Page not found', 'The address may be mistyped, or the page no longer exists.')
export const NO_PLAN = message('Plan not found', 'It may have been deleted, or the address is incomplete.')
export const NO_FORM = message('Unknown form', 'This address only accepts the form of its own page.')
export const COPY_TOO_LARGE = message(
  'Copy too large',
  'The file is over 64 MB. The person who runs the service can restore it with “npm run restore”.',
)
export const TOO_LARGE = message('Form too large', 'The form is over 8 MB. Divide the plan into smaller plans.')
/** @param id under which the log has the details */
export const broken = (id: string) =>
  message(
    'Internal error',
    `The error is in Longchord and has been logged. Go back to the previous page: your input is still there. Its number is ${id}.`,
  )
export const NO_SPACE = message(
  'The disk is full',
  'Nothing can be saved until there is space again; plans that are saved can still be read. Go back to the previous page: your input is still there.',
)
export const noStore = (id: string) =>
  message(
    'The database is not available',
    `Go back to the previous page and try again in a moment: your input is still there. If it lasts, the log has more under the number ${id}.`,
  )
export const BUSY = message(
  'The server is busy',
  'Go back to the previous page and try again in a few seconds: your input is still there. A quick cut plan search takes less time than a thorough one.',
)
export const FOREIGN = message(
  'Request from another site',
  'Only pages of this site may use it in this way, so that no other site can read or change your plans. Open the plan here and try again.',
)
export const UNKNOWN_HOST = message(
  'Not an address of this service',
  'The name in the address bar is not one of this service. If it should be, add the name to its setting ALLOWED_HOSTS.',
)
export const TOO_MANY_KEYS = message('Too many wrong keys', 'Wait ten minutes, then sign in again.')
