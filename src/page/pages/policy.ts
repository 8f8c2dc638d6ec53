/** Only the page's own style sheet, script and drawings; forms and the script only send to this site; no frames. */
export const POLICY =
  "default-src 'none'; script-src 'self'; connect-src 'self'; style-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
