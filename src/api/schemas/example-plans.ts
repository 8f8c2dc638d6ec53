import hillside from '../../../openapi/examples/hillside-with-grade.json' with { type: 'json' }
import quarterLoop from '../../../openapi/examples/quarter-loop.json' with { type: 'json' }
import smallOval from '../../../openapi/examples/small-oval.json' with { type: 'json' }
import type { Example } from '../responses.ts'

/** Plans to start from; the files are the bodies of a request as they stand. */
export const EXAMPLE_PLANS: Record<string, Example> = {
  'quarter-loop': { summary: 'A quarter of a circle between two straights, with stock and prices', value: quarterLoop },
  'small-oval': { summary: 'A closed oval with easements', value: smallOval },
  'hillside-with-grade': { summary: 'A climbing line that joins track already laid', value: hillside },
}
