/** Addresses that calculate from what is sent with the request and know nothing of what is stored. */
const CALCULATIONS = [
  '/v1/estimates',
  '/v1/comparisons',
  '/v1/bends',
  '/v1/bends.csv',
  '/v1/bend-calibrations',
  '/v1/bend-checks',
  '/v1/cut-plans',
  '/v1/fits',
  '/v1/moves',
  '/v1/setting-outs',
  '/v1/surveys',
  '/v1/catalogue/*',
  '/v1/cell/*',
  '/openapi.json',
]

export function isCalculation(path: string): boolean {
  return CALCULATIONS.some((own) => (own.endsWith('*') ? path.startsWith(own.slice(0, -1)) : path === own))
}
