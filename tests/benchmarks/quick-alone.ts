import { quick } from './quick.ts'

/* A process of its own for the benchmark, so that it can be bundled. */
await quick()
