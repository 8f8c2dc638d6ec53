import postgres from 'postgres'
import { StartFault } from './start-fault.ts'
import { codeOf } from './store-error.ts'

/** The oldest major version that the tests run against. */
const OLDEST_MAJOR = 15
const CONNECT_TIMEOUT_S = 5
/** For reading, and as many for writing. */
const CONNECTIONS = 6
/** No request waits longer for the server: less than the limit of a call of the store (database-store.ts). */
const STATEMENT_TIMEOUT_MS = 8_000
const LOCK_TIMEOUT_MS = 5_000
const IDLE_IN_TRANSACTION_TIMEOUT_MS = 15_000
/** Short and always the same, so that the service is back as soon as the server is. */
const RECONNECT_AFTER_S = 0.2
/** Another process that starts at the same time may be migrating; no migration takes longer than a minute. */
const MIGRATION_LOCK_TIMEOUT_MS = 60_000
/** Any number that no other program uses on this database: "Longchrd" in ASCII. */
const MIGRATION_LOCK = '5507742259625882212'
const CLOSE_TIMEOUT_S = 5

export function connect(url: string): postgres.Sql {
  return postgres(url, {
    max: CONNECTIONS,
    connect_timeout: CONNECT_TIMEOUT_S,
    backoff: () => RECONNECT_AFTER_S,
    connection: {
      application_name: 'longchord',
      statement_timeout: STATEMENT_TIMEOUT_MS,
      lock_timeout: LOCK_TIMEOUT_MS,
      idle_in_transaction_session_timeout: IDLE_IN_TRANSACTION_TIMEOUT_MS,
    },
    onnotice: () => {},
  })
}

export function disconnect(client: postgres.Sql): Promise<void> {
  return client.end({ timeout: CLOSE_TIMEOUT_S })
}

/**
 * Runs `migrate` on one connection that holds an advisory lock, so that of several processes starting at once one migrates
 * and the others find it done. Faults of the server or of its address are thrown as a `StartFault`.
 */
export async function migrateAlone(url: string, migrate: (client: postgres.Sql) => Promise<void>): Promise<void> {
  const client = postgres(url, {
    max: 1,
    max_lifetime: null,
    connect_timeout: CONNECT_TIMEOUT_S,
    connection: { application_name: 'longchord start', lock_timeout: MIGRATION_LOCK_TIMEOUT_MS },
    onnotice: () => {},
  })
  try {
    await refuseUnfit(client)
    await client`select pg_advisory_lock(${MIGRATION_LOCK}::bigint)`
    await migrate(client)
    await client`select pg_advisory_unlock(${MIGRATION_LOCK}::bigint)`
  } catch (error) {
    throw error instanceof StartFault ? error : new StartFault(explained(error, url))
  } finally {
    await disconnect(client)
  }
}

async function refuseUnfit(client: postgres.Sql): Promise<void> {
  const [server] = await client<{ version: string; encoding: string }[]>`
    select current_setting('server_version_num') as version, current_setting('server_encoding') as encoding`
  const major = Math.floor(Number(server!.version) / 10_000)
  if (major < OLDEST_MAJOR)
    throw new StartFault(
      `The server named in DATABASE_URL is PostgreSQL ${major}; the oldest supported version is ${OLDEST_MAJOR}.`,
    )
  if (server!.encoding !== 'UTF8')
    throw new StartFault(
      `The database named in DATABASE_URL has the encoding ${server!.encoding}; Longchord needs UTF8.`,
    )
}

/** What is wrong and what to do, by error code; never with the statement or the password. */
function explained(error: unknown, url: string): string {
  const code = codeOf(error)
  const { hostname, port, pathname, username } = new URL(url)
  const server = `${hostname || 'localhost'}:${port || 5432}`
  const database = decodeURIComponent(pathname.slice(1)) || 'the default database'
  switch (code) {
    case 'ECONNREFUSED':
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
    case 'EHOSTUNREACH':
    case 'ENETUNREACH':
    case 'CONNECT_TIMEOUT':
      return `Cannot reach PostgreSQL at ${server} (${code}). Is it running, and is DATABASE_URL right?`
    case '28P01':
    case '28000':
      return `PostgreSQL at ${server} refuses user ${decodeURIComponent(username)} (${code}). Check the user and the password in DATABASE_URL.`
    case '3D000':
      return `PostgreSQL at ${server} has no database ${database} (${code}). Create it with createdb, or correct DATABASE_URL.`
    case '42501':
      return `The user in DATABASE_URL may not create tables in ${database} (${code}). Make that user the owner of the database.`
    case '42P07':
      return `${database} already has tables with the same names that are not Longchord's (${code}). Use a separate database for Longchord.`
    case '55P03':
      return `Another process holds the migration lock of ${database} (${code}). Start again when it has finished.`
    default:
      return `Cannot open ${database} on PostgreSQL at ${server} (${code ?? 'no code'}).`
  }
}
