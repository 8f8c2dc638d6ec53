import { component, extended, list, nullable, text } from '../../plan/fields/answer.ts'
import { BUILD, PROJECT_LINK, PROJECT_SUMMARY, REVISION } from '../../projects/store.ts'

export const PROJECT_PAGE = component('ProjectPage', 'A page of projects, the newest first.', {
  items: list(PROJECT_SUMMARY),
  next: nullable(text('The cursor of the next page; null on the last page.')),
})

export const REVISIONS = component('Revisions', 'The revisions of a project, the oldest first.', {
  items: list(REVISION),
})

export const BUILDS = component('Builds', 'The revisions of a project that were built, the oldest first.', {
  items: list(BUILD),
})

export const LINKS = component('Links', 'The links of a project, the oldest first.', { items: list(PROJECT_LINK) })

export const NEW_LINK = extended(PROJECT_LINK, 'NewLink', 'A new link, with its token.', {
  token: text('256 random bits. It is shown only in this answer; only its hash is stored.'),
  tables: list(text(), 'The addresses of the tables.'),
  workbook: text('The address of the workbook with all tables.'),
  sheets: text('The address of the printed sheets, a PDF.'),
})
