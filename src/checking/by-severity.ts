import type { Finding } from './finding.ts'

const ORDER = { stop: 0, warn: 1, note: 2 }

/** The most severe first, otherwise in their order. */
export function bySeverity(findings: readonly Finding[]): Finding[] {
  return findings.toSorted((a, b) => ORDER[a.severity] - ORDER[b.severity])
}
