import { expect } from 'vitest'
import type { PlanFinding } from '../../src/checking/finding.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { type Patch, patched } from '../../src/fitting/json-patch.ts'

export function findingsOf(plan: unknown): PlanFinding[] {
  const read = readPlan(plan)
  const result = read.ok ? estimate(read.plan, { sent: plan }) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return 'estimate' in result ? result.estimate.findings : []
}

const RANK = { stop: 2, warn: 1, note: 0 }

function counted(findings: readonly PlanFinding[], least: number): Map<string, number> {
  const counts = new Map<string, number>()
  for (const { rule, track, severity } of findings)
    if (RANK[severity] >= least) counts.set(`${rule} ${track}`, (counts.get(`${rule} ${track}`) ?? 0) + 1)
  return counts
}

/** Each remedy of the rule, carried out: what it was for has become less, and nothing as grave has become more. */
export function remediesCarriedOut(plan: object, rule: string): Patch[] {
  const before = findingsOf(plan)
  return before
    .filter((finding) => finding.rule === rule)
    .flatMap((finding) => {
      const remedies = [...(finding.remedy ? [finding.remedy] : []), ...finding.otherRemedies]
      for (const remedy of remedies) {
        const then = counted(before, RANK[finding.severity])
        const now = counted(findingsOf(patched(plan, remedy)), RANK[finding.severity])
        const key = `${rule} ${finding.track}`
        expect(now.get(key) ?? 0, JSON.stringify([plan, remedy])).toBeLessThan(then.get(key)!)
        for (const [other, count] of now) expect([other, count <= (then.get(other) ?? 0)]).toEqual([other, true])
      }
      return remedies
    })
}

export const isGone = (plan: object, remedy: Patch, rule: string) =>
  !findingsOf(patched(plan, remedy)).some((finding) => finding.rule === rule)
