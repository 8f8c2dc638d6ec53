import type { z } from '@hono/zod-openapi'
import { shown } from '../../plan/fields/read.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import type { FaultCode } from '../fault-catalogue.ts'
import type { ParameterFault } from '../problem.ts'

/** The issues that a schema found in query parameters, as faults. */
export function parameterFaultsOf(issues: readonly z.core.$ZodIssue[]): ParameterFault[] {
  return faultsOf(issues, {}).map(({ path, code, detail, hint }) => {
    const parameter = String(path[0])
    if (code !== 'unknown-field') return { parameter, code: code as FaultCode, detail, hint }
    return {
      parameter,
      code: 'unknown-parameter',
      detail: `${shown(parameter)} is not a parameter of this address`,
      hint,
    }
  })
}
