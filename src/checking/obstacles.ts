import { formatMm } from '../measure/length.ts'
import type { Touched } from '../network/touched.ts'
import type { Finding } from './finding.ts'
import { unchecked } from './not-checked.ts'

/** Where cars run into what stands beside the line. */
export function obstacleFindings(
  tracks: readonly { readonly name: string }[],
  { touched, complete }: { readonly touched: readonly Touched[]; readonly complete: boolean },
  { hasCars, hasOutline }: { readonly hasCars: boolean; readonly hasOutline: boolean },
): Finding[] {
  if (!hasCars) return [unchecked(hasOutline ? NO_CARS_INSIDE : NO_CARS, 'List the cars that run on the line.')]
  const found = touched.map((each) => (isEdge(each) ? leavingOf(each, tracks) : findingOf(each, tracks)))
  return complete ? found : [...found, unchecked(TOO_MUCH, 'Give obstacles fewer corners, or split the plan.')]
}

function isEdge({ obstacle: { outline } }: Touched): boolean {
  return 'corners' in outline && outline.isOutside === true
}

/** Where cars, or the track itself, are outside the outline of the garden. */
function leavingOf({ track, element, depthMm, side, across, cars, ...at }: Touched, tracks: Named): Finding {
  const { name } = tracks[track]!
  const deep = upToTenths(depthMm)
  const [mm, from, to] = [at.atMm, Math.floor(at.fromMm), Math.ceil(at.toMm)].map((each) => formatMm(each, 0))
  const beside = side === 1 ? 'left' : 'right'
  const what = across ? `${name} itself leaves` : `On ${name}, ${cars[0]} reaches over`
  return {
    rule: 'outline',
    severity: 'stop',
    track: name,
    element,
    message: `${what} the outline of the garden: by ${deep} at ${mm} from its start, on the ${beside}, cars included; it is outside from ${from} to ${to}.`,
    measured: depthMm,
    limit: 0,
    unit: 'mm',
    cure: `Move the track there ${deep} to the ${side === 1 ? 'right' : 'left'}, or move the outline.`,
  }
}

type Named = readonly { readonly name: string }[]

const NO_CARS = 'The obstacles were not looked at: the plan has no cars, so it is not known how much room they take.'
const NO_CARS_INSIDE =
  'Obstacles and the outline were not looked at: the plan has no cars, so it is not known how much room they take.'
const TOO_MUCH =
  'Not all of the line was compared with all obstacles: too many of their corners lie near too much of it.'

function findingOf(
  { obstacle, track, element, depthMm, side, across, cars, ...at }: Touched,
  tracks: readonly { readonly name: string }[],
): Finding {
  const { name } = tracks[track]!
  const deep = upToTenths(depthMm)
  const [mm, from, to] = [at.atMm, Math.floor(at.fromMm), Math.ceil(at.toMm)].map((each) => formatMm(each, 0))
  const [deepest, ...others] = cars
  const beside = side === 1 ? 'left' : 'right'
  const other = side === 1 ? 'right' : 'left'
  const too = others.length === 0 ? '' : `; so ${others.length === 1 ? 'does' : 'do'} ${others.join(', ')}`
  return {
    rule: 'obstacle',
    severity: 'stop',
    track: name,
    element,
    message: across
      ? `${obstacle.name} stands on ${name}, from ${from} to ${to} from its start: ${deepest} runs into it${too}.`
      : `On ${name}, ${deepest} runs into ${obstacle.name}${too}: ${deep} deep at ${mm} from its start, on the ${beside}, and it is in the way from ${from} to ${to}.`,
    measured: depthMm,
    limit: 0,
    unit: 'mm',
    cure: across
      ? `Lead the track round ${obstacle.name}, or take it away between ${from} and ${to}.`
      : `Move the track there ${deep} to the ${other}, or take as much off ${obstacle.name} between ${from} and ${to}.`,
  }
}

/** To move so much is enough. */
function upToTenths(mm: number): string {
  return formatMm(Math.ceil(mm * 10 - 1e-6) / 10)
}
