import type { HttpBindings } from '@hono/node-server'
import type { Context, Hono } from 'hono'
import { deleteCookie, setCookie } from 'hono/cookie'
import type { AccessGuard } from '../../access/guard.ts'
import { SESSION_DAYS } from '../../access/key.ts'
import { accessRequest } from '../../access/requests.ts'
import { SESSION_COOKIE, SIGN_IN_PATH } from '../../access/sign-in.ts'
import { html } from '../html.ts'
import { fieldsOf, show } from './answering.ts'
import { NO_FORM } from './plain-pages.ts'

const DAY_S = 86_400

/** Signing in with the access key and out again, for browsers. */
export function mountSignIn(page: Hono, guard: AccessGuard): void {
  page.get(SIGN_IN_PATH, (c) => showSignIn(c, c.req.query('next'), null))

  page.post(SIGN_IN_PATH, async (c) => {
    const fields = await fieldsOf(c)
    if (!fields) return show(c, NO_FORM, 415)
    const next = fields.get('next')
    const { remoteAddress } = accessRequest(c.req.raw, (c.env as HttpBindings | undefined)?.incoming)
    const result = guard.signIn((fields.get('key') ?? '').trim(), remoteAddress)
    if ('session' in result) {
      setCookie(c, SESSION_COOKIE, result.session, {
        path: '/',
        httpOnly: true,
        sameSite: 'Lax',
        secure: c.req.header('x-forwarded-proto') === 'https',
        maxAge: SESSION_DAYS * DAY_S,
      })
      return c.redirect(placeToGo(next), 303)
    }
    if (result.kind !== 'too-many-wrong-keys') return showSignIn(c, next, result.detail)
    c.header('Retry-After', String(result.retryAfterS))
    return showSignIn(c, next, result.detail, 429)
  })

  page.post('/sign-out', (c) => {
    deleteCookie(c, SESSION_COOKIE, { path: '/' })
    return c.redirect(SIGN_IN_PATH, 303)
  })
}

/** Answers a browser that has not signed in: a form to do so, which leads back to where it wanted to go. */
export function askToSignIn(c: Context): Response {
  if (c.req.method !== 'GET')
    return show(
      c,
      {
        title: 'Sign in first',
        main: html`<h1>Sign in first</h1>
<section class="card"><p>You are not signed in, or were signed in over ${SESSION_DAYS} days ago. <a href="${SIGN_IN_PATH}" target="_blank">Sign in in another tab</a>, then reload this page: your browser sends what you typed once more.</p></section>`,
      },
      401,
    )
  const { pathname, search } = new URL(c.req.url)
  return c.redirect(`${SIGN_IN_PATH}?next=${encodeURIComponent(pathname + search)}`, 303)
}

function showSignIn(
  c: Context,
  next: string | undefined,
  fault: string | null,
  status: 200 | 401 | 429 = fault === null ? 200 : 401,
): Response {
  c.header('Cache-Control', 'no-store')
  return show(
    c,
    {
      title: 'Sign in',
      main: html`<h1>Sign in</h1>
<form method="post" action="${SIGN_IN_PATH}" class="card sign-in">
${fault === null ? null : html`<p class="notice" role="alert">${fault}</p>`}
<input type="hidden" name="next" value="${placeToGo(next)}">
<input name="username" autocomplete="username" value="longchord" hidden>
<p><label>Access key <input type="password" name="key" required autofocus autocomplete="current-password"></label></p>
<p class="buttons"><button class="first">Sign in</button></p>
<p>The key is the value of ACCESS_KEY that this service was started with. This browser stays signed in for ${SESSION_DAYS} days.</p>
</form>
<form method="post" action="/sign-out"><button>Sign this browser out</button></form>`,
    },
    status,
  )
}

/** A path of this site; anything else leads to the start page. */
function placeToGo(next: string | undefined): string {
  return next !== undefined && /^\/(?![/\\])[\x21-\x7e]*$/.test(next) ? next : '/'
}
