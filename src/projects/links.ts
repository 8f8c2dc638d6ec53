import { newToken, tokenHash } from './link-token.ts'
import type { ProjectLink, ProjectStore } from './store.ts'

type MadeLink =
  | { readonly outcome: 'done'; readonly link: ProjectLink; readonly token: string }
  | { readonly outcome: 'missing' }
  | { readonly outcome: 'too-many' }

/** Creates a link to the tables of a project. Only this result has its token. */
export async function makeLink(store: ProjectStore, project: string, label: string): Promise<MadeLink> {
  const token = newToken()
  const made = await store.addLink(project, label, tokenHash(token)!)
  return made.outcome === 'done' ? { outcome: 'done', link: made.value, token } : made
}
