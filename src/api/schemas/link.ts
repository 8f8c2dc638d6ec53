import { z } from '@hono/zod-openapi'
import type { ProjectLink } from '../../projects/store.ts'
import type { Same } from './same-type.ts'

const moment = z.iso.datetime()

export const LinkSchema = z
  .object({
    id: z.uuid(),
    label: z.string(),
    createdAt: moment.openapi({ description: 'RFC 3339, UTC.' }),
    lastUsedAt: moment.nullable().openapi({ description: 'To the minute; null: not yet.' }),
  })
  .openapi('Link')

export const LinksSchema = z.object({ items: z.array(LinkSchema) }).openapi('Links')

export const NewLinkSchema = LinkSchema.extend({
  token: z.string().openapi({ description: '256 random bits. It is told this once; only its hash is kept.' }),
  tables: z.array(z.string()).openapi({ description: 'Where the tables are.' }),
  workbook: z.string().openapi({ description: 'Where all of them are as a workbook.' }),
}).openapi('NewLink')

true satisfies Same<z.output<typeof LinkSchema>, ProjectLink>
