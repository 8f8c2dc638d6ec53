import { defineConfig } from 'drizzle-kit'

/** For `npm run migrations:generate -- --name what_changes`, run from the top folder. Nothing here is read at run time. */
export default defineConfig({
  dialect: 'postgresql',
  schema: './src/projects/tables.ts',
  out: './drizzle/migrations',
})
