import fc from 'fast-check'

/**
 * Random cases are the same in every run, so that a change is judged by what it changed. `RANDOM_SEED` is another number,
 * or `new` for one that is different each time (`npm run test:random`); a failure names the seed it had.
 */
const wanted = process.env.RANDOM_SEED ?? '20260'
if (wanted !== 'new') fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(wanted) })
