import { z } from '@hono/zod-openapi'

type Document = NonNullable<Parameters<z.ZodType['openapi']>[1]>

/**
 * A value that may have several shapes, told apart before it is read, so that the faults are those of the shape it was
 * meant to have (a plain union would only say that none fits).
 *
 * @param pick the schema for a value, by a look at it
 * @param document the shapes, as `$ref`s to components of their own
 */
export function byShape<T>(name: string, pick: (value: unknown) => z.ZodType<T>, document: Document) {
  return z
    .unknown()
    .transform((value, context): T => {
      const parsed = pick(value).safeParse(value)
      if (parsed.success) return parsed.data
      for (const issue of parsed.error.issues)
        context.issues.push({ ...issue, path: [...issue.path], input: value } as never)
      return z.NEVER
    })
    .openapi(name, document)
}

export function refTo(component: string) {
  return { $ref: `#/components/schemas/${component}` }
}

/** Whether a value is an object that has one of these fields. */
export function has(value: unknown, ...names: string[]): boolean {
  return typeof value === 'object' && value !== null && names.some((name) => name in value)
}
