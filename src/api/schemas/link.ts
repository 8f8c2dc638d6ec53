import { fields } from './fields.ts'
import { nameLeaf } from './words.ts'

/** What a client says of a link it wants. */
export const LinkWantedSchema = fields({
  label: nameLeaf('LinkLabel', 100, 'What the link is for, so that it can be told from others.'),
}).openapi('LinkWanted')
