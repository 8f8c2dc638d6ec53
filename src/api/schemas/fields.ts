import { z } from '@hono/zod-openapi'

/**
 * An object with these fields and no others. An issue about unknown fields forgets which schema it came from, so its
 * message is the list of the known ones; `faultsOf` turns that into a hint.
 */
export function fields<Shape extends z.core.$ZodLooseShape>(shape: Shape) {
  const known = Object.keys(shape).join(' ')
  return z.strictObject(shape, { error: (issue) => (issue.code === 'unrecognized_keys' ? known : undefined) })
}
