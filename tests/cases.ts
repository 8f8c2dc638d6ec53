/**
 * How many of a test's cases to try: all in the long run (`npm run test:long`), a share of them in `npm test`. Where the
 * test has a seed these are the first of all.
 */
export function cases(whole: number, share = 1 / 6): number {
  return process.env.LONG_RUN === 'true' ? whole : Math.ceil(whole * share)
}

/** For a property that counts its cases: all are tried, however long they take. */
export const UNHURRIED = { interruptAfterTimeLimit: 3_600_000 } as const
