/** Only the page's own style sheet and drawings; forms are only posted to this site; no frames, no scripts. */
export const POLICY =
  "default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
