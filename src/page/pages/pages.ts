import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { compress } from 'hono/compress'
import type { AccessRefusal } from '../../access/guard.ts'
import { isProjectId } from '../../projects/ids.ts'
import { Elsewhere } from '../../workers/elsewhere.ts'
import { checkPage } from '../check/check-page.ts'
import { checkFieldsOf } from '../check/read-check.ts'
import { mountCopies } from '../copies/mount-copies.ts'
import { SCRIPT, SCRIPT_PATH } from '../script-file.ts'
import { readLengthsIn } from '../show-length.ts'
import { curveCard } from '../start/curve-card.ts'
import { startedBy, startedForm } from '../start/started.ts'
import { STYLESHEET, STYLESHEET_PATH } from '../stylesheet.ts'
import { mountSurvey } from '../survey/mount-survey.ts'
import { show } from './answering.ts'
import { mountBuyingPages } from './buying-pages.ts'
import { mountEditing } from './edited-plan.ts'
import { mountFinishedPages } from './finished-pages.ts'
import { documentOf } from './frame.ts'
import { welcome } from './home-page.ts'
import { answerPageFailure } from './page-failures.ts'
import { mountPaperPages } from './paper-pages.ts'
import { COPY_TOO_LARGE, FOREIGN, NO_PAGE, TOO_LARGE, TOO_MANY_KEYS, UNKNOWN_HOST } from './plain-pages.ts'
import { mountPlanPages } from './plan-pages.ts'
import { POLICY } from './policy.ts'
import { mountPreview } from './preview.ts'
import { mountRevisionPages } from './revision-pages.ts'
import { BLANK, showPlan } from './shown-plan.ts'
import { mountSidePages } from './side-pages.ts'
import { askToSignIn, mountSignIn } from './sign-in-page.ts'

/** The largest plan that the service accepts is about half of this as a form. */
const LARGEST_FORM_BYTES = 8 * 1024 * 1024

/** A copy of everything that is sent by a form is in memory for a moment; larger ones are restored by the program. */
const LARGEST_COPY_BYTES = 64 * 1024 * 1024

const PLANS_LISTED = 20

/** The web page. Everything works without its script. Mounted at the root. */
export function createPage(deps: Parameters<typeof mountPaperPages>[1]): Hono {
  const { store, workers } = deps
  const page = new Hono()

  for (const [path, text, type] of [
    [STYLESHEET_PATH, STYLESHEET, 'text/css'],
    [SCRIPT_PATH, SCRIPT, 'text/javascript'],
  ] as const)
    page.get(path, (c) =>
      c.body(text, 200, {
        'Content-Type': `${type}; charset=utf-8`,
        'Cache-Control': 'public, max-age=31536000, immutable',
        'X-Content-Type-Options': 'nosniff',
      }),
    )

  const paths = [
    '/',
    '/new',
    '/preview',
    '/demo/*',
    '/sheets/*',
    '/check',
    '/survey',
    '/shed',
    '/plans/*',
    '/copies',
    '/deleted',
    '/sign-in',
    '/sign-out',
  ]
  for (const path of paths) {
    page.use(path, compress())
    page.use(path, async (c, next) => {
      await next()
      c.header('Content-Security-Policy', POLICY)
      c.header('X-Content-Type-Options', 'nosniff')
      if (c.res.headers.get('cache-control') === 'no-store') return
      c.header('Referrer-Policy', 'same-origin')
      c.header('Cache-Control', 'private, no-cache')
    })
    const [maxSize, tooLarge] =
      path === '/copies' ? [LARGEST_COPY_BYTES, COPY_TOO_LARGE] : [LARGEST_FORM_BYTES, TOO_LARGE]
    page.use(path, bodyLimit({ maxSize, onError: (c) => show(c, tooLarge, 413) }))
  }

  // What belongs in a worker thread is for the whole app to give there.
  page.onError((error, c) => {
    if (error instanceof Elsewhere) throw error
    return answerPageFailure(error, c)
  })

  page.get('/', async (c) => {
    const after = c.req.query('after')
    const plans = await store.list({ limit: PLANS_LISTED, after: after && isProjectId(after) ? after : null })
    const deleted = await store.list({ limit: 1, after: null, deleted: true })
    return show(c, {
      title: 'Rails, bends, cuts and costs',
      main: welcome({
        ...plans,
        anyDeleted: deleted.items.length > 0,
        lengthsIn: readLengthsIn(c.req.query('show')),
      }),
    })
  })

  page.get('/new', (c) => {
    const started = startedBy(new URL(c.req.url).searchParams)
    const saveFields = { name: '', notes: '', lengthsIn: started.lengthsIn }
    const curves = started.curves.join('; ')
    const above = curveCard(started, workers)
    return showPlan(c, { ...BLANK, form: startedForm(started), saveFields, curves, above })
  })

  page.get('/check', async (c) => {
    const fields = checkFieldsOf((name) => c.req.query(name))
    const { main, complete } = await checkPage(fields, readLengthsIn(c.req.query('show')), async (input) =>
      workers.checkBend(input),
    )
    return show(c, { title: 'Check a bend or a laid curve', main }, complete ? 200 : 422)
  })

  mountPreview(page, deps)
  mountPlanPages(page, deps)
  mountEditing(page, deps)
  mountPaperPages(page, deps)
  mountSurvey(page, deps.workers)
  mountSidePages(page, deps)
  mountRevisionPages(page, deps)
  mountBuyingPages(page, deps)
  mountFinishedPages(page, deps)
  mountCopies(page, deps)
  mountSignIn(page, deps.guard)

  return page
}

/** The page for an unknown address; requests from programs are answered elsewhere. */
export function pageNotFound(): Response {
  return new Response(documentOf(NO_PAGE.title, NO_PAGE.main), {
    status: 404,
    headers: {
      'Content-Type': 'text/html; charset=UTF-8',
      'Content-Security-Policy': POLICY,
      'X-Content-Type-Options': 'nosniff',
    },
  })
}

/** The page for a browser whose request is refused. */
export function pageRefused(c: Context, kind: AccessRefusal['kind']): Response {
  c.header('Content-Security-Policy', POLICY)
  switch (kind) {
    case 'key-required':
      return askToSignIn(c)
    case 'foreign-request':
      return show(c, FOREIGN, 403)
    case 'unknown-host':
      return show(c, UNKNOWN_HOST, 421)
    case 'too-many-wrong-keys':
      return show(c, TOO_MANY_KEYS, 429)
  }
}
