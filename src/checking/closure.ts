import { toDegrees } from '../measure/angle.ts'
import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import { type Closure, type ClosureCure, closureCure, closureOf } from '../track/closure.ts'
import type { Rule } from './checked-track.ts'
import type { Finding, Severity } from './finding.ts'

/** A gap of up to this share of the track's length can be taken up in careful laying; beyond it the plan is wrong. */
const GAP_SHARE_TO_WARN = 0.001

/** A heading error of up to this many times the tolerance can be taken up in laying; own choice, no source. */
const HEADING_TOLERANCES_TO_WARN = 2

const SLACK_DEG = 1e-9

/**
 * A closed track must meet its own start in place, heading and height, and any other whose end the plan holds must meet
 * that place. Within the tolerances there is no finding; beyond them the cure names the lengths or the angle to change.
 */
export const closure: Rule = (track, { closureGap: closureGapMm, closureHeading: closureHeadingDeg }) => {
  const { placed, lengthMm, name, heldAt } = track
  if (!heldAt) return []
  const { pose, elevationMm, called } = heldAt
  const miss = closureOf(pose, placed.at(-1)!.end)
  const gap = exceeds(miss.gapMm, closureGapMm)
  const turned = Math.abs(miss.headingDeg) > closureHeadingDeg + SLACK_DEG
  const stepMm = elevationMm === null ? 0 : track.endElevationMm - elevationMm
  const step = exceeds(Math.abs(stepMm), closureGapMm)
  const cure = gap || turned ? cureText(closureCure(placed, closureHeadingDeg, pose), miss) : ''
  const bySize = (sizeMm: number): Severity => (exceeds(sizeMm, GAP_SHARE_TO_WARN * lengthMm) ? 'stop' : 'warn')
  const found = { rule: 'closure', track: name, element: null }
  const findings: Finding[] = []
  if (gap)
    findings.push({
      ...found,
      severity: bySize(miss.gapMm),
      message: `The end misses ${called} by ${formatMm(miss.gapMm)}; the joints can take up ${formatMm(closureGapMm)}.`,
      measured: miss.gapMm,
      limit: closureGapMm,
      unit: 'mm',
      cure,
    })
  if (turned) {
    const mild = Math.abs(miss.headingDeg) <= HEADING_TOLERANCES_TO_WARN * closureHeadingDeg + SLACK_DEG
    findings.push({
      ...found,
      severity: mild ? 'warn' : 'stop',
      message: `The track turns ${Math.abs(miss.headingDeg).toFixed(2)}° too far to the ${miss.headingDeg > 0 ? 'left' : 'right'} to meet ${track.closed ? 'its start' : called}; ${closureHeadingDeg}° can be taken up.`,
      measured: Math.abs(miss.headingDeg),
      limit: closureHeadingDeg,
      unit: '°',
      cure,
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

/** The change of angles and lengths that closes the track, in words; elements counted from 1 as people do. */
function cureText(cure: ClosureCure | null, miss: Closure): string {
  if (!cure)
    return `Add a curve: the track turns ${Math.abs(miss.headingDeg).toFixed(2)}° too little or too much to close.`
  const angles = cure.angleChanges.map(
    ({ element, changeRad }) =>
      `${changeRad > 0 ? 'add' : 'subtract'} ${degrees(changeRad)} ${changeRad > 0 ? 'to' : 'from'} the angle of element ${element + 1}`,
  )
  const lengths = (cure.lengthChanges ?? []).map(
    ({ element, changeMm }) =>
      `make element ${element + 1} (straight) ${formatMm(Math.abs(changeMm), 2)} ${changeMm > 0 ? 'longer' : 'shorter'}`,
  )
  const steps = [...angles, ...lengths]
  const rest =
    cure.lengthChanges === null
      ? ' No two straights can close the remaining gap: add a straight in another direction, or change a radius.'
      : ''
  return steps.length === 0 ? rest.trim() : `${capital(steps.join(', '))}.${rest}`
}

function degrees(rad: number): string {
  return `${toDegrees(Math.abs(rad)).toFixed(3)}°`
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
