import { and, asc, count, eq } from 'drizzle-orm'
import { isProjectId } from './ids.ts'
import { type Database, isRevision, keptProject, projectIsKept } from './project-rows.ts'
import type { ProjectStore } from './store.ts'
import { projectFinishedCards, projectRevisions, projects } from './tables.ts'

type Run = <T>(work: () => Promise<T>) => Promise<T>

/** A revision has no more cards than this; nothing but the page's own names ever comes near it. */
const MOST_CARDS = 5_000

/** The part of the store for bench cards that are ticked off. */
export function finishedCardStore(db: Database, run: Run): Pick<ProjectStore, 'finishedCards' | 'noteCard'> {
  const ofRevision = (id: string, revision: number) =>
    and(eq(projectFinishedCards.projectId, id), eq(projectFinishedCards.revision, revision))
  return {
    finishedCards: (id, revision) =>
      run(async () => {
        if (!isProjectId(id) || !isRevision(revision)) return []
        const { card } = projectFinishedCards
        const rows = await db
          .select({ card })
          .from(projectFinishedCards)
          .where(and(ofRevision(id, revision), projectIsKept(db, id)))
          .orderBy(asc(card))
        return rows.map((row) => row.card)
      }),

    noteCard: (id, revision, card, done) =>
      run(async () => {
        if (!isProjectId(id) || !isRevision(revision)) return false
        return db.transaction(async (tx) => {
          const [project] = await tx.select({ id: projects.id }).from(projects).where(keptProject(id)).for('update')
          const [known] = await tx
            .select({ revision: projectRevisions.revision })
            .from(projectRevisions)
            .where(and(eq(projectRevisions.projectId, id), eq(projectRevisions.revision, revision)))
          if (project === undefined || known === undefined) return false
          if (!done) {
            await tx
              .delete(projectFinishedCards)
              .where(and(ofRevision(id, revision), eq(projectFinishedCards.card, card)))
              .returning({ card: projectFinishedCards.card })
            return true
          }
          const [{ cards } = { cards: 0 }] = await tx
            .select({ cards: count() })
            .from(projectFinishedCards)
            .where(ofRevision(id, revision))
          if (cards >= MOST_CARDS) return false
          await tx
            .insert(projectFinishedCards)
            .values({ projectId: id, revision, card })
            .onConflictDoNothing()
            .returning({ card: projectFinishedCards.card })
          return true
        })
      }),
  }
}
