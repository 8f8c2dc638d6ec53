import { and, asc, eq, inArray, sql } from 'drizzle-orm'
import { isProjectId } from './ids.ts'
import { type Database, keptProject, projectIsKept } from './project-rows.ts'
import type { ProjectStore } from './store.ts'
import { projectPurchases, projects } from './tables.ts'

type Run = <T>(work: () => Promise<T>) => Promise<T>

/** The part of the store for what was bought. */
export function purchaseStore(db: Database, run: Run): Pick<ProjectStore, 'purchases' | 'notePurchases'> {
  return {
    purchases: (id) =>
      run(async () => {
        if (!isProjectId(id)) return []
        const { item, quantity } = projectPurchases
        return db
          .select({ item, quantity })
          .from(projectPurchases)
          .where(and(eq(projectPurchases.projectId, id), projectIsKept(db, id)))
          .orderBy(asc(item))
      }),

    notePurchases: (id, purchases) =>
      run(async () => {
        if (!isProjectId(id)) return false
        return db.transaction(async (tx) => {
          const [project] = await tx.select({ id: projects.id }).from(projects).where(keptProject(id)).for('update')
          if (project === undefined) return false
          const nothing = purchases.filter(({ quantity }) => quantity === 0).map(({ item }) => item)
          const bought = purchases.filter(({ quantity }) => quantity > 0)
          if (nothing.length > 0)
            await tx
              .delete(projectPurchases)
              .where(and(eq(projectPurchases.projectId, id), inArray(projectPurchases.item, nothing)))
              .returning({ item: projectPurchases.item })
          if (bought.length > 0)
            await tx
              .insert(projectPurchases)
              .values(bought.map(({ item, quantity }) => ({ projectId: id, item, quantity })))
              .onConflictDoUpdate({
                target: [projectPurchases.projectId, projectPurchases.item],
                set: { quantity: sql`excluded.quantity` },
              })
              .returning({ item: projectPurchases.item })
          return true
        })
      }),
  }
}

/** What was bought for a project is used up when it is built. */
export async function usePurchases(tx: Database, id: string): Promise<void> {
  await tx.delete(projectPurchases).where(eq(projectPurchases.projectId, id)).returning({ item: projectPurchases.item })
}
