import { html } from 'hono/html'

/** The interface to read and try. Addresses are relative, so that it also works behind a prefix. */
export const referencePage = html`<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>Longchord: the interface</title>
    <link rel="icon" href="data:," />
    <link rel="stylesheet" href="docs/swagger-ui.css" />
  </head>
  <body>
    <noscript>
      <p>This screen needs JavaScript. The same can be read in <a href="openapi.json">openapi.json</a>.</p>
    </noscript>
    <p>Beside this: <a href="docs/spreadsheets">numbers in your spreadsheet</a>, <a href="docs/problems">every problem and fault</a>, <a href="openapi.json">the interface as OpenAPI</a>.</p>
    <div id="reference"></div>
    <script src="docs/swagger-ui-bundle.js"></script>
    <script src="docs/start.js"></script>
  </body>
</html>
`
