import { z } from '@hono/zod-openapi'
import type {
  Answer,
  AnswerFields,
  Declared,
  Fixed,
  ObjectAnswer,
  ValueAnswer,
  Vocabulary,
} from '../../plan/fields/answer.ts'
import { FINDINGS } from '../finding-catalogue.ts'

/*
 * The zod schemas of answers, with their descriptions for the OpenAPI document. The service never validates with them.
 */

/** Schemas of declared answers, each made only once, so that every component has one schema. */
export class AnswerSchemas {
  /**
   * By their names in the OpenAPI document. They must be registered before it is generated: otherwise the description of a
   * component at its first use would appear everywhere.
   */
  readonly components = new Map<string, z.ZodType>()
  private readonly made = new Map<Declared, z.ZodType>()

  of(declared: Declared): z.ZodType {
    const schema = this.made.get(declared) ?? this.described(declared)
    this.made.set(declared, schema)
    return schema
  }

  private described(declared: Declared): z.ZodType {
    const schema = this.bare(declared)
    const document = {
      ...(declared.says !== undefined && { description: declared.says }),
      ...(declared.is === 'value' && declared.format !== undefined && { format: declared.format }),
      ...wordsOf(declared),
      ...componentOf(declared),
    }
    if (declared.is !== 'object' || declared.component === null) return schema.openapi(document)
    const { component } = declared
    if (this.components.has(component)) throw new Error(`two answers are called ${component}`)
    const named = schema.openapi(component, document)
    this.components.set(component, named)
    return named
  }

  private bare(declared: Declared): z.ZodType {
    switch (declared.is) {
      case 'value':
        return valueSchema(declared)
      case 'word':
        return z.enum(declared.words)
      case 'nullable':
        return this.nullable(declared.of)
      case 'list':
        return z.array(this.of(declared.of))
      case 'part':
        return this.of(declared.of)
      case 'either':
        return z.union(declared.options.map((option) => this.of(option)))
      case 'object':
        return this.object(declared)
    }
  }

  /** With `.nullable()` the generator would make the component itself nullable. */
  private nullable(of: Declared): z.ZodType {
    const schema = this.of(of)
    return of.is === 'object' && of.component !== null ? z.union([schema, z.null()]) : schema.nullable()
  }

  private object({ extended, fields }: ObjectAnswer): z.ZodType {
    const own = Object.entries(fields).filter(([name]) => !(extended && name in extended.fields))
    const shape = Object.fromEntries(own.map(([name, field]) => [name, this.field(field)]))
    return extended ? (this.of(extended) as z.ZodObject).extend(shape) : z.object(shape)
  }

  private field(field: AnswerFields[string]): z.ZodType {
    return field.is === 'optional' ? this.of(field.of).optional() : this.of(field)
  }
}

/** What a client wrote is answered as it was written: its schema is that of the request. */
function componentOf(declared: Declared): { readonly type?: 'object'; readonly allOf?: { $ref: string }[] } {
  if (declared.is !== 'value' || declared.component === undefined) return {}
  return { type: 'object', allOf: [{ $ref: `#/components/schemas/${declared.component}` }] }
}

const VOCABULARIES: Readonly<Record<Vocabulary, readonly string[]>> = { rules: Object.keys(FINDINGS) }

/** The words of a list that may get longer: a client should be ready for others. */
function wordsOf(declared: Declared): { readonly enum?: string[]; readonly 'x-extensible'?: true } {
  if (declared.is === 'word' && declared.extensible) return { 'x-extensible': true }
  if (declared.is !== 'value' || declared.vocabulary === undefined) return {}
  return { enum: [...VOCABULARIES[declared.vocabulary]], 'x-extensible': true }
}

function valueSchema({ kind, least }: ValueAnswer): z.ZodType {
  switch (kind) {
    case 'number':
      return least === undefined ? z.number() : z.number().min(least)
    case 'length':
      return z.number()
    case 'count':
      return least === undefined ? z.int() : z.int().min(least)
    case 'text':
      return z.string()
    case 'flag':
      return z.boolean()
    case 'money':
      return z.string().regex(/^\d+(\.\d{2,4})?$/)
    case 'moment':
      return z.iso.datetime()
    case 'uuid':
      return z.uuid()
    case 'written':
      return z.record(z.string(), z.unknown())
  }
}

const schemas = new AnswerSchemas()

/** The schema of an answer of this service. */
export function answerSchema<D extends Declared>(declared: D): z.ZodType<Fixed<Answer<D>>, Fixed<Answer<D>>> {
  return schemas.of(declared) as z.ZodType<never, never>
}

/** The components of all answers. */
export function answerComponents(): ReadonlyMap<string, z.ZodType> {
  return schemas.components
}
