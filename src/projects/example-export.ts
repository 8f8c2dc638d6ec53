import { changeLine, endLine, headLine } from './journal/journal-lines.ts'
import { latestMigration } from './migrations.ts'

const CREATED = '2026-05-31T09:00:00+00:00'
const ID = '019e7d5a-3c00-7000-8000-000000000001'
const CONTENT = {
  name: 'Short spur',
  notes: '',
  plan: {
    rail: { section: '250', material: 'brass' },
    tracks: [{ name: 'spur', elements: [{ kind: 'tangent', length: '6 ft' }] }],
  },
}

const ROWS = {
  projects: { id: ID, ...CONTENT, revision: 1, created_at: CREATED, updated_at: CREATED, deleted_at: null },
  shed: {
    id: 1,
    revision: 1,
    stock: { sticks: [], joiners: [], ties: 0, fasteners: 0 },
    updated_at: CREATED,
    length_texts: {},
  },
  project_revisions: { project_id: ID, revision: 1, ...CONTENT, created_at: CREATED },
}

/** A small export of this version: one project and an empty shed. */
export function exampleExport(): string {
  const rows = Object.entries(ROWS).map(([table, row]) =>
    changeLine({ seq: 0, table, change: 'put', row: JSON.stringify(row) }),
  )
  return [headLine({ id: 'export', migration: latestMigration(), ends: true }), ...rows, endLine()].join('')
}
