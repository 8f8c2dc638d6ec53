import { html } from 'hono/html'
import { FAULTS, PROBLEMS } from '../fault-catalogue.ts'
import { FINDINGS } from '../finding-catalogue.ts'

/** Every kind of problem, every code of a fault and every rule of a finding; a problem's `type` leads to its row. */
export function problemsPage() {
  const problems = Object.entries(PROBLEMS).map(
    ([kind, { status, title, when }]) =>
      html`<tr id="${kind}"><td><code>${kind}</code></td><td>${status}</td><td>${title}</td><td>${when}</td></tr>\n`,
  )
  const faults = Object.entries(FAULTS).map(
    ([code, { statuses, title, when }]) =>
      html`<tr id="fault-${code}"><td><code>${code}</code></td><td>${statuses.join(', ')}</td><td>${title}</td><td>${when}</td></tr>\n`,
  )
  const findings = Object.entries(FINDINGS).map(
    ([rule, { severities, when }]) =>
      html`<tr id="finding-${rule}"><td><code>${rule}</code></td><td>${severities.join(', ')}</td><td>${when}</td></tr>\n`,
  )
  return html`<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>Longchord: problems</title>
    <link rel="stylesheet" href="plain.css" />
  </head>
  <body>
    <h1>Problems</h1>
    <p>A request that cannot be answered gets one of these, as <code>application/problem+json</code> (RFC 9457). Its
    <code>type</code> leads here; its <code>errors</code> list every fault of the request, each with a
    <code>pointer</code> into the body (RFC 6901) or the name of a <code>parameter</code>, and one of the codes below.</p>
    <table>
      <thead><tr><th>Kind</th><th>Status</th><th>Title</th><th>When</th></tr></thead>
      <tbody>
${problems}
      </tbody>
    </table>
    <h2>Faults</h2>
    <table>
      <thead><tr><th>Code</th><th>Status</th><th>Title</th><th>When</th></tr></thead>
      <tbody>
${faults}
      </tbody>
    </table>
    <h2>Findings</h2>
    <p>An answer is given all the same; its <code>findings</code> name the <code>rule</code>, what was measured, the limit
    and a cure. <code>stop</code>: cannot be built or done as it stands; <code>warn</code>: can, but breaks a rule;
    <code>note</code>: worth knowing.</p>
    <table>
      <thead><tr><th>Rule</th><th>Severity</th><th>When</th></tr></thead>
      <tbody>
${findings}
      </tbody>
    </table>
  </body>
</html>
`
}
