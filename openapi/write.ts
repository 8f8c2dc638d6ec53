import { writeFileSync } from 'node:fs'
import openapiTypes, { type OpenAPI3 } from 'openapi-typescript'
import { createApi } from '../src/api/api.ts'
import { openApiDocument } from '../src/api/openapi-document.ts'
import { papers } from '../src/print/papers.ts'
import type { ProjectStore } from '../src/projects/store.ts'
import { inThisThread } from '../src/workers/in-this-thread.ts'

/** Writes openapi.json and its types beside this file. Describing the interface asks nothing of the store. */
const noStore = {} as ProjectStore
const document = openApiDocument(createApi({ store: noStore, workers: inThisThread, papers }))
const json = JSON.stringify(document, null, 2)
writeFileSync(new URL('openapi.json', import.meta.url), `${json}\n`)
writeFileSync(new URL('interface.d.ts', import.meta.url), await openapiTypes(JSON.parse(json) as OpenAPI3))
