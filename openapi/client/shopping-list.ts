/*
 * A client of the service, with the types of its interface:
 *
 *     node --import tsx openapi/client/shopping-list.ts openapi/examples/quarter-loop.json
 *
 * prints what the plan makes one buy, and what is wrong with it; each fault of a plan that is refused. The second argument
 * is the address of the service.
 */
import { readFile } from 'node:fs/promises'
import createClient from 'openapi-fetch'
import type { components, paths } from '../interface.d.ts'

const [file, baseUrl = 'http://127.0.0.1:8080'] = process.argv.slice(2)
if (file === undefined) throw new Error('give the file of a plan')

const service = createClient<paths>({ baseUrl, querySerializer: { array: { style: 'form', explode: false } } })
// The service reads it, and says what does not fit the type.
const plan = JSON.parse(await readFile(file, 'utf8')) as components['schemas']['Plan']

const { data, error } = await service.POST('/v1/estimates', {
  params: { query: { fields: ['bill', 'findings'] } },
  body: plan,
})
if (error) {
  for (const fault of error.errors) {
    const place = 'pointer' in fault ? fault.pointer : fault.parameter
    console.error(`${place}: ${fault.detail}${fault.hint === undefined ? '' : ` (${fault.hint})`}`)
  }
  process.exitCode = 1
} else {
  const { bill, findings } = data
  for (const { toBuy, description, amount } of bill?.lines ?? [])
    console.log(`${toBuy} × ${description}  ${amount ?? '–'}`)
  console.log(`${bill?.total} ${bill?.currency} in all`)
  for (const { severity, message, cure } of findings ?? []) console.log(`${severity}: ${message} ${cure}`)
}
