import { OpenAPIHono } from '@hono/zod-openapi'
import type { Papers } from '../paper/papers.ts'
import { componentsOf } from '../plan/reading/schema.ts'
import { COMPARISON, CURVE } from '../plan/rows/questions.ts'
import { STOCK } from '../plan/rows/shed.ts'
import { type BackupStatus, NO_BACKUPS } from '../projects/backups/backups.ts'
import type { ProjectStore } from '../projects/store.ts'
import type { Workers } from '../workers/workers.ts'
import { answerComponents } from './answers/schema.ts'
import { CellCache } from './cells/cell-cache.ts'
import { mountBendCalibrations } from './endpoints/bend-calibrations.ts'
import { mountBendChecks } from './endpoints/bend-checks.ts'
import { mountBends } from './endpoints/bends.ts'
import { mountBillSince } from './endpoints/bill-since.ts'
import { mountBuilt } from './endpoints/built.ts'
import { mountCatalogue } from './endpoints/catalogue.ts'
import { mountCells } from './endpoints/cells.ts'
import { mountComparisons } from './endpoints/comparisons.ts'
import { mountCutPlans } from './endpoints/cut-plans.ts'
import { mountDrawings } from './endpoints/drawings.ts'
import { mountEstimates } from './endpoints/estimates.ts'
import { mountEverything } from './endpoints/everything.ts'
import { mountFigures } from './endpoints/figures.ts'
import { mountFits } from './endpoints/fits.ts'
import { mountHealth } from './endpoints/health.ts'
import { mountLinked } from './endpoints/linked.ts'
import { mountLinks } from './endpoints/links.ts'
import { mountMoves } from './endpoints/moves.ts'
import { mountOpenApiJson } from './endpoints/openapi-json.ts'
import { mountOverhangs } from './endpoints/overhangs.ts'
import { mountProjectEstimate } from './endpoints/project-estimate.ts'
import { mountProjects } from './endpoints/projects.ts'
import { mountRestored } from './endpoints/restored.ts'
import { mountRevisions } from './endpoints/revisions.ts'
import { mountSettingOuts } from './endpoints/setting-outs.ts'
import { mountShed } from './endpoints/shed.ts'
import { mountSheets } from './endpoints/sheets.ts'
import { mountSurveys } from './endpoints/surveys.ts'
import { mountTables } from './endpoints/tables.ts'
import { mountTurnouts } from './endpoints/turnouts.ts'
import { mountVerticalCurves } from './endpoints/vertical-curves.ts'
import { badParameters, problem } from './problem.ts'
import { parameterFaultsOf } from './request/parameter-faults.ts'
import type { Clock } from './tables-answer.ts'

interface ApiDeps {
  readonly store: ProjectStore
  readonly workers: Workers
  /** Makes the files for people. */
  readonly papers: Papers
  /** For the answers of cells. */
  readonly cellCache?: CellCache
  /** How the backups are. */
  readonly backups?: () => BackupStatus
  /** For the date of tables. */
  readonly clock?: Clock
}

const ACCESS_KEY = {
  type: 'http',
  scheme: 'bearer',
  description: 'The access key of the service, if it has one.',
} as const

/** The JSON interface. `createApp` adds what all addresses share: headers, 404, 405 and 500. */
export function createApi({
  store,
  workers,
  papers,
  cellCache = new CellCache(),
  backups = () => NO_BACKUPS,
  clock = () => new Date(),
}: ApiDeps): OpenAPIHono {
  const api = new OpenAPIHono({
    defaultHook: (result, c) =>
      result.success ? undefined : problem(c, badParameters(parameterFaultsOf(result.error.issues))),
  })
  for (const [name, schema] of [...componentsOf(COMPARISON, CURVE, STOCK), ...answerComponents()])
    api.openAPIRegistry.register(name, schema)
  api.openAPIRegistry.registerComponent('securitySchemes', 'accessKey', ACCESS_KEY)
  mountEstimates(api, workers)
  mountComparisons(api, workers)
  mountBends(api, workers)
  mountBendCalibrations(api, workers)
  mountBendChecks(api, workers)
  mountCutPlans(api, workers)
  mountSettingOuts(api, workers)
  mountFigures(api, workers)
  mountFits(api, workers)
  mountMoves(api, workers)
  mountSurveys(api, workers)
  mountOverhangs(api)
  mountVerticalCurves(api)
  mountTurnouts(api)
  mountCatalogue(api)
  mountProjects(api, store)
  mountRestored(api, store)
  mountRevisions(api, store)
  mountProjectEstimate(api, store, workers)
  mountCells(api, workers, cellCache)
  mountTables(api, store, workers, clock)
  mountDrawings(api, store, workers, papers)
  mountSheets(api, store, workers, papers, clock)
  mountLinks(api, store)
  mountLinked(api, store, workers, papers, clock)
  mountBillSince(api, store, workers)
  mountBuilt(api, store, workers)
  mountShed(api, store)
  mountEverything(api, store)
  mountHealth(api, store, backups)
  mountOpenApiJson(api)
  return api
}
