/** Where a browser signs in with the access key, and where its session is kept. */
export const SIGN_IN_PATH = '/sign-in'
export const SESSION_COOKIE = 'longchord_session'
