import { sql } from 'drizzle-orm'
import {
  check,
  doublePrecision,
  foreignKey,
  index,
  integer,
  json,
  pgTable,
  primaryKey,
  text,
  timestamp,
  unique,
  uuid,
} from 'drizzle-orm/pg-core'
import type { LengthTexts } from '../shed/length-texts.ts'
import type { KeptStock } from '../shed/stock.ts'
import type { StoredPlan } from './store.ts'

/*
 * Which index serves which query (a test asks the database's planner):
 *   list, newest first     primary key of projects, read backwards
 *   get, replace, remove, restore
 *                          primary key of projects
 *   revisions, oldest first; one revision; removal of a project's revisions
 *                          primary key of project_revisions, whose first column is the project
 *   what is reserved for a project; from a project on
 *                          primary key of shed_reservations
 *   creation with a key    primary key of creation_keys
 *   what was bought for a project
 *                          primary key of project_purchases
 *   bench cards of a revision that are done
 *                          primary key of project_finished_cards
 *   keys that have expired creation_keys_claimed_at
 *   links of a project, oldest first
 *                          project_links_of_a_project
 *   project of a link      project_links_token_hash
 *   what building took; whether a revision is built
 *                          primary key of project_builds
 *
 * A plan is `json` and not `jsonb`, which would sort its keys and rewrite its numbers.
 * Times have milliseconds, because that is what both databases and JavaScript share.
 */

const moment = (name: string) => timestamp(name, { withTimezone: true, precision: 3, mode: 'date' }).notNull()

export const projects = pgTable(
  'projects',
  {
    id: uuid('id').primaryKey(),
    name: text('name').notNull(),
    notes: text('notes').notNull(),
    plan: json('plan').$type<StoredPlan>().notNull(),
    revision: integer('revision').notNull(),
    createdAt: moment('created_at'),
    updatedAt: moment('updated_at'),
    /** Null unless it is deleted; such a project can be restored for a while. */
    deletedAt: timestamp('deleted_at', { withTimezone: true, precision: 3, mode: 'date' }),
  },
  (table) => [
    check('projects_name_not_empty', sql`${table.name} <> ''`),
    check('projects_plan_is_object', sql`json_typeof(${table.plan}) = 'object'`),
    check('projects_revision_from_one', sql`${table.revision} >= 1`),
    check('projects_updated_after_created', sql`${table.updatedAt} >= ${table.createdAt}`),
  ],
)

/** All revisions of a project, including the current one. Rows are written once and never changed. */
export const projectRevisions = pgTable(
  'project_revisions',
  {
    projectId: uuid('project_id')
      .notNull()
      .references(() => projects.id, { onDelete: 'cascade' }),
    revision: integer('revision').notNull(),
    name: text('name').notNull(),
    notes: text('notes').notNull(),
    plan: json('plan').$type<StoredPlan>().notNull(),
    createdAt: moment('created_at'),
  },
  (table) => [
    primaryKey({ name: 'project_revisions_pkey', columns: [table.projectId, table.revision] }),
    check('project_revisions_name_not_empty', sql`${table.name} <> ''`),
    check('project_revisions_plan_is_object', sql`json_typeof(${table.plan}) = 'object'`),
    check('project_revisions_revision_from_one', sql`${table.revision} >= 1`),
  ],
)

/** The only shed. The migration inserts its row. Everything that writes stock, reservations or projects locks it first. */
export const shed = pgTable(
  'shed',
  {
    id: integer('id').primaryKey(),
    revision: integer('revision').notNull(),
    stock: json('stock').$type<KeptStock>().notNull(),
    /** Its lengths as people wrote them. */
    lengthTexts: json('length_texts').$type<LengthTexts>().notNull().default({}),
    updatedAt: moment('updated_at'),
  },
  (table) => [
    check('shed_is_one', sql`${table.id} = 1`),
    check('shed_stock_is_object', sql`json_typeof(${table.stock}) = 'object'`),
    check('shed_length_texts_is_object', sql`json_typeof(${table.lengthTexts}) = 'object'`),
    check('shed_revision_from_one', sql`${table.revision} >= 1`),
  ],
)

/**
 * What is reserved in the shed for a project that is still to be built; no row if that is nothing. Only the row of the current
 * revision counts; those of earlier ones say what was reserved for them.
 */
export const shedReservations = pgTable(
  'shed_reservations',
  {
    projectId: uuid('project_id').notNull(),
    revision: integer('revision').notNull(),
    stock: json('stock').$type<KeptStock>().notNull(),
  },
  (table) => [
    primaryKey({ name: 'shed_reservations_pkey', columns: [table.projectId, table.revision] }),
    foreignKey({
      name: 'shed_reservations_of_a_revision',
      columns: [table.projectId, table.revision],
      foreignColumns: [projectRevisions.projectId, projectRevisions.revision],
    }).onDelete('cascade'),
    check('shed_reservations_stock_is_object', sql`json_typeof(${table.stock}) = 'object'`),
  ],
)

/** Revisions that were built, with what they took from the shed and what they returned. Written once, never changed. */
export const projectBuilds = pgTable(
  'project_builds',
  {
    projectId: uuid('project_id').notNull(),
    revision: integer('revision').notNull(),
    builtAt: moment('built_at'),
    taken: json('taken').$type<KeptStock>().notNull(),
    returned: json('returned').$type<KeptStock>().notNull(),
  },
  (table) => [
    primaryKey({ name: 'project_builds_pkey', columns: [table.projectId, table.revision] }),
    foreignKey({
      name: 'project_builds_of_a_revision',
      columns: [table.projectId, table.revision],
      foreignColumns: [projectRevisions.projectId, projectRevisions.revision],
    }).onDelete('cascade'),
    check(
      'project_builds_stock_is_object',
      sql`json_typeof(${table.taken}) = 'object' and json_typeof(${table.returned}) = 'object'`,
    ),
  ],
)

/** What was ticked off on the shopping list of a project, until it is built. */
export const projectPurchases = pgTable(
  'project_purchases',
  {
    projectId: uuid('project_id')
      .notNull()
      .references(() => projects.id, { onDelete: 'cascade' }),
    /** Names a line of the bill, whatever revision it is of. */
    item: text('item').notNull(),
    /** In the unit of the line. */
    quantity: doublePrecision('quantity').notNull(),
  },
  (table) => [
    primaryKey({ name: 'project_purchases_pkey', columns: [table.projectId, table.item] }),
    check('project_purchases_something', sql`${table.quantity} > 0`),
  ],
)

/** Bench cards of a revision that are ticked off. */
export const projectFinishedCards = pgTable(
  'project_finished_cards',
  {
    projectId: uuid('project_id').notNull(),
    revision: integer('revision').notNull(),
    /** Names the card by the pieces that are on it. */
    card: text('card').notNull(),
  },
  (table) => [
    primaryKey({ name: 'project_finished_cards_pkey', columns: [table.projectId, table.revision, table.card] }),
    foreignKey({
      name: 'project_finished_cards_of_a_revision',
      columns: [table.projectId, table.revision],
      foreignColumns: [projectRevisions.projectId, projectRevisions.revision],
    }).onDelete('cascade'),
    check('project_finished_cards_card_not_empty', sql`${table.card} <> ''`),
  ],
)

/** Links to the tables of a project. The token itself is not stored. */
export const projectLinks = pgTable(
  'project_links',
  {
    id: uuid('id').primaryKey(),
    projectId: uuid('project_id')
      .notNull()
      .references(() => projects.id, { onDelete: 'cascade' }),
    label: text('label').notNull(),
    /** SHA-256 of the token, base64url. */
    tokenHash: text('token_hash').notNull(),
    createdAt: moment('created_at'),
    lastUsedAt: timestamp('last_used_at', { withTimezone: true, precision: 3, mode: 'date' }),
  },
  (table) => [
    unique('project_links_token_hash').on(table.tokenHash),
    index('project_links_of_a_project').on(table.projectId, table.id),
    check('project_links_label_not_empty', sql`${table.label} <> ''`),
  ],
)

/**
 * The keys with which clients ask for a project to be created once. Kept for a limited time, also after the project is
 * deleted, so that a late repetition does not create it again.
 */
export const creationKeys = pgTable(
  'creation_keys',
  {
    key: text('key').primaryKey(),
    /** Of the body of the request. */
    bodyHash: text('body_hash').notNull(),
    /** Of the request that is at work on it. */
    claim: uuid('claim').notNull(),
    claimedAt: moment('claimed_at'),
    /** Null until it is created. */
    projectId: uuid('project_id'),
  },
  (table) => [
    index('creation_keys_claimed_at').on(table.claimedAt),
    check('creation_keys_key_not_empty', sql`${table.key} <> ''`),
  ],
)
