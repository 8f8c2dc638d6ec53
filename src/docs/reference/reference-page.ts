import { html } from '../../page/html.ts'
import { documentOf } from '../../page/pages/frame.ts'

/** The interface, to read and to try. */
export function referencePage(): string {
  return documentOf(
    'The interface',
    html`<p class="hint up no-print"><a href="/docs">All guides</a></p>
<h1>The interface</h1>
<p>Every request and answer, read from <a href="/openapi.json">openapi.json</a>. Errors are explained under
<a href="/docs/problems">problems and findings</a>; numbers in a spreadsheet have <a href="/docs/spreadsheets">a guide of their own</a>.</p>
<noscript><p>This list needs JavaScript. The same can be read in <a href="/openapi.json">openapi.json</a>.</p></noscript>
<div id="reference"></div>
<script src="/docs/swagger-ui-bundle.js"></script>
<script src="/docs/start.js"></script>`,
    html`<link rel="stylesheet" href="/docs/swagger-ui.css">
<link rel="stylesheet" href="/docs/docs.css">\n`,
  )
}
