import { FAULTS, PROBLEMS } from '../api/fault-catalogue.ts'
import { FINDINGS } from '../api/finding-catalogue.ts'
import { html } from '../page/html.ts'
import { guideDocument } from './guide-frame.ts'
import { withCode } from './with-code.ts'

/** Every kind of problem, every code of a fault and every rule of a finding; a problem's `type` leads to its row. */
export function problemsPage(): string {
  const problems = Object.entries(PROBLEMS).map(
    ([kind, { status, title, when }]) =>
      html`<tr id="${kind}"><td><code>${kind}</code></td><td>${status}</td><td>${title}</td><td>${withCode(when)}</td></tr>\n`,
  )
  const faults = Object.entries(FAULTS).map(
    ([code, { statuses, title, when }]) =>
      html`<tr id="fault-${code}"><td><code>${code}</code></td><td>${statuses.join(', ')}</td><td>${title}</td><td>${withCode(when)}</td></tr>\n`,
  )
  const findings = Object.entries(FINDINGS).map(
    ([rule, { severities, when, source }]) =>
      html`<tr id="finding-${rule}"><td><code>${rule}</code></td><td>${severities.join(', ')}</td><td>${withCode(when)}</td><td>${withCode(source)}</td></tr>\n`,
  )
  return guideDocument(
    'problems',
    html`<h1>Problems and findings</h1>
<p>A request that cannot be answered gets one of the problems below, as <code>application/problem+json</code> (RFC 9457). Its
<code>type</code> leads to its row here. Its <code>errors</code> list every <a href="#faults">fault</a> of the request, each with a
<code>pointer</code> into the body (RFC 6901) or the name of a <code>parameter</code>. A plan that can be worked out but breaks a rule of
good track is answered, and the answer has <a href="#findings">findings</a>.</p>
<h2 id="problem-kinds">Problems</h2>
<table class="stacked">
<thead><tr><th>Kind</th><th>Status</th><th>Title</th><th>When</th></tr></thead>
<tbody>
${problems}</tbody>
</table>
<h2 id="faults">Faults</h2>
<table class="stacked">
<thead><tr><th>Code</th><th>Status</th><th>Title</th><th>When</th></tr></thead>
<tbody>
${faults}</tbody>
</table>
<h2 id="findings">Findings</h2>
<p>Each names the <code>rule</code>, what was measured, the limit and a cure. <code>stop</code>: cannot be built or done as
it is; <code>warn</code>: can be built, but breaks a rule; <code>note</code>: worth knowing. <code>GET /v1/rules</code>
answers this list with the fields of a plan that set each limit.</p>
<table class="stacked">
<thead><tr><th>Rule</th><th>Severity</th><th>When</th><th>Source</th></tr></thead>
<tbody>
${findings}</tbody>
</table>`,
  )
}
