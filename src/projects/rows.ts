import { name, part, shape, text } from '../plan/fields/kinds.ts'
import { PLAN } from '../plan/rows/plan.ts'

/* What a client sends for projects. */

export const PROJECT_CONTENT = shape('ProjectContent', undefined, {
  name: name({
    component: 'ProjectName',
    required: true,
    longest: 200,
    says: 'Name of the project; several projects may have the same',
    label: 'Saved as',
    blank: 'the title',
  }),
  notes: text({ component: 'ProjectNotes', longest: 10_000, says: 'Free text', label: 'Notes' }),
  plan: part(PLAN, { required: true }),
})

export const LINK_WANTED = shape('LinkWanted', undefined, {
  label: name({
    component: 'LinkLabel',
    required: true,
    longest: 100,
    says: 'What the link is for, to distinguish it from others',
    label: 'What the link is for',
  }),
})
