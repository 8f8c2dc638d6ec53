import { byArcsAndStraights, closings, tolerancesOf } from '../fitting/closings.ts'
import { changesInWords } from '../fitting/in-words.ts'
import type { Closing } from '../fitting/loop.ts'
import { turnedBack } from '../fitting/turned-back.ts'
import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import { closureOf } from '../track/closure.ts'
import type { Rule } from './checked-track.ts'
import type { Finding, Severity } from './finding.ts'

/** A gap of up to this share of the track's length can be taken up in careful laying; beyond it the plan is wrong. */
const GAP_SHARE_TO_WARN = 0.001

/** A heading error of up to this many times the tolerance can be taken up in laying; own choice, no source. */
const HEADING_TOLERANCES_TO_WARN = 2

const SLACK_DEG = 1e-9

/**
 * A closed track must meet its own start in place, heading and height, and any other whose end the plan holds must meet
 * that place. Within the tolerances there is no finding; beyond them the cure names the figures to change.
 */
export const closure: Rule = (track, standards) => {
  const findings = closureMissed(track, standards)
  if (findings.every(({ cure }) => cure !== '')) return findings
  const tolerances = tolerancesOf(standards)
  const [best] = track.closed
    ? closings(track.placed, tolerances)
    : byArcsAndStraights(track.placed, tolerances, track.heldAt!.pose)
  const cure = cureText(best, track.heldAt?.atLeg ?? false)
  const turnCure =
    track.closed && !best?.changes.some(({ field }) => field === 'turn') ? turnCureOf(track, standards) : null
  return findings.map((finding) => (finding.cure === '' ? { ...finding, cure: turnCure ?? cure } : finding))
}

/** The same without looking for a cure in position and heading, which takes longer. */
export const closureMissed: Rule = (track, { closureGap: closureGapMm, closureHeading: closureHeadingDeg }) => {
  const { placed, lengthMm, name, heldAt } = track
  if (!heldAt) return []
  const { pose, elevationMm, called, atLeg } = heldAt
  const miss = closureOf(pose, placed.at(-1)!.end)
  const gap = exceeds(miss.gapMm, closureGapMm)
  const turned = Math.abs(miss.headingDeg) > closureHeadingDeg + SLACK_DEG
  const stepMm = elevationMm === null ? 0 : track.endElevationMm - elevationMm
  const step = exceeds(Math.abs(stepMm), closureGapMm)
  const bySize = (sizeMm: number): Severity => (exceeds(sizeMm, GAP_SHARE_TO_WARN * lengthMm) ? 'stop' : 'warn')
  const found = { ...(atLeg ? { rule: 'leg-not-met' } : { rule: 'closure' }), track: name, element: null }
  const findings: Finding[] = []
  if (gap && turned && atLeg) {
    const wrong = `${Math.abs(miss.headingDeg).toFixed(2)}° too far to the ${miss.headingDeg > 0 ? 'left' : 'right'}`
    findings.push({
      ...found,
      severity: 'stop',
      message: `The end misses ${called} by ${formatMm(miss.gapMm)}, turned ${wrong}; the joints can take up ${formatMm(closureGapMm)} and ${closureHeadingDeg}°.`,
      measured: miss.gapMm,
      limit: closureGapMm,
      unit: 'mm',
      cure: '',
    })
  } else if (gap)
    findings.push({
      ...found,
      severity: bySize(miss.gapMm),
      message: `The end misses ${called} by ${formatMm(miss.gapMm)}; the joints can take up ${formatMm(closureGapMm)}.`,
      measured: miss.gapMm,
      limit: closureGapMm,
      unit: 'mm',
      cure: '',
    })
  if (turned && !(gap && atLeg)) {
    const mild = Math.abs(miss.headingDeg) <= HEADING_TOLERANCES_TO_WARN * closureHeadingDeg + SLACK_DEG
    findings.push({
      ...found,
      severity: mild ? 'warn' : 'stop',
      message: `The track turns ${Math.abs(miss.headingDeg).toFixed(2)}° too far to the ${miss.headingDeg > 0 ? 'left' : 'right'} to meet ${track.closed ? 'its start' : called}; ${closureHeadingDeg}° can be taken up.`,
      measured: Math.abs(miss.headingDeg),
      limit: closureHeadingDeg,
      unit: '°',
      cure: '',
    })
  }
  if (step)
    findings.push({
      ...found,
      severity: bySize(Math.abs(stepMm)),
      message: `The end is ${formatMm(Math.abs(stepMm))} ${stepMm > 0 ? 'above' : 'below'} ${called}.`,
      measured: Math.abs(stepMm),
      limit: closureGapMm,
      unit: 'mm',
      cure: track.closed
        ? 'Bring the grade line back to its starting elevation.'
        : `Bring the grade line to ${formatMm(elevationMm!)} at the end of the track.`,
    })
  return findings
}

/** What a wrong turn takes, where the ends do not meet even with it put right. */
function turnCureOf({ placed }: Parameters<Rule>[0], standards: Parameters<Rule>[1]): string | null {
  const [change] = turnedBack(placed, tolerancesOf(standards))
  return change ? `${changesInWords([change])}, then close what is left.` : null
}

function cureText(closing: Closing | undefined, atLeg: boolean): string {
  if (!closing)
    return `No angles or lengths of the elements there are can close it: ${atLeg ? 'check the hand of the turnouts, ' : ''}add a curve or a straight in another direction, or change a radius.`
  return `${changesInWords(closing.changes)}.`
}
