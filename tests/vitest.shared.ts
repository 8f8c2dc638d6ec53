/** What the short and the long run have in common. */
export const shared = {
  root: new URL('..', import.meta.url).pathname,
  // All cores: the usual is one less, which on two is half.
  maxWorkers: '100%',
  passWithNoTests: false,
  allowOnly: !process.env.CI,
  hookTimeout: 30_000,
  testTimeout: 120_000,
  // What a browser or a service comes to show may take more than a second on a machine that does other things as well.
  expect: { poll: { timeout: 10_000 } },
  reporters: ['default'],
  setupFiles: ['tests/seed.ts'],
}
