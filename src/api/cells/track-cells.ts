import type { z } from '@hono/zod-openapi'
import type { Estimate } from '../../estimate/answer.ts'
import { readCompactTrack, type WrittenElement } from '../../estimate/questions/compact-track/read-compact.ts'
import { asWritten, readPlan } from '../../estimate/read-plan.ts'
import { formatMm } from '../../measure/length.ts'
import { DIAMETER, LENGTH } from '../../plan/fields/bounds.ts'
import { USUAL } from '../../plan/usual.ts'
import { NOTHING } from '../../shed/stock.ts'
import type { Workers } from '../../workers/workers.ts'
import type { FaultCode } from '../fault-catalogue.ts'
import type { ParameterFault } from '../problem.ts'
import { asParameterFaults, PLAN_QUERY, type PlanQuery, planFromQuery } from '../request/plan-query.ts'
import { choiceParameter, lengthParameter, numberParameter, query, textParameter } from '../request/query.ts'
import {
  ASSUMED_CURVE,
  type Cell,
  type CellValue,
  cell,
  length as lengthOf,
  number,
  refuse,
  USUAL_RAIL,
} from './cell.ts'
import { ERRORS } from './errors-option.ts'
import { UNITS } from './units-option.ts'

const about = (description: string) => ({ param: { description } })

/** The parts of an estimate that cells show. */
const PARTS_OF_CELLS = ['tracks', 'cutting', 'bill'] as const

/** WEBSERVICE allows addresses of at most 2,048 characters. */
const LONGEST_TRACK = 2_000

const TRACK = textParameter('CompactTrack', LONGEST_TRACK).openapi(
  about(
    'A track in one word: S6ft is a straight, E2ft an easement, Ld18ft-a45 an arc to the left of 18 ft diameter through 45°, Rr2743-l600 an arc to the right of 2743 mm radius and 600 mm length. Write _ between elements, p for a decimal point and o for the bar of a fraction (6-1o2in). Lengths without a unit are millimetres.',
  ),
)

/** What is assumed of the supplies where a query leaves them out. */
const ASSUMED_SUPPLIES = `section ${USUAL_RAIL.section} in ${USUAL_RAIL.material}, a gauge of ${formatMm(USUAL.gauge)}, sticks of 5 ft (${formatMm(USUAL.stick.length)}) that are sold one by one, pieces of at least ${formatMm(USUAL.minimumPiece)}, a saw cut of ${formatMm(USUAL.kerf)} and a tie spacing of ${formatMm(USUAL.tieSpacing)}`

type Worked =
  | { readonly ok: true; readonly estimate: Estimate }
  | { readonly ok: false; readonly faults: ParameterFault[] }

/** Estimates a track with the rail and supplies of a query. */
function workOut(
  ofPlan: PlanQuery,
  elements: readonly (WrittenElement | { kind: 'tangent'; length: number })[],
  workers: Workers,
  ofElements: 'track' | 'length',
): Worked {
  const raw = planFromQuery(
    { ...ofPlan, section: ofPlan.section ?? USUAL_RAIL.section, material: ofPlan.material ?? USUAL_RAIL.material },
    elements,
  )
  const inElements = ({
    path,
    code,
    detail,
    hint,
  }: Parameters<typeof asParameterFaults>[0][number]): ParameterFault => ({
    parameter: ofElements,
    code: code as FaultCode,
    detail:
      path[2] === 'elements' && typeof path[3] === 'number' && ofElements === 'track'
        ? `element ${path[3] + 1}: ${detail}`
        : detail,
    hint,
  })
  const read = readPlan(raw)
  if (!read.ok) return { ok: false, faults: asParameterFaults(read.faults, inElements) }
  const result = workers.estimate({ plan: read.plan, stock: NOTHING, parts: PARTS_OF_CELLS })
  return result.ok ? result : { ok: false, faults: asParameterFaults(asWritten(result.faults, raw), inElements) }
}

function workOutTrack(ofPlan: PlanQuery & { readonly track: string }, workers: Workers): Worked {
  const { track, ...query } = ofPlan
  const read = readCompactTrack(track)
  if (read.ok) return workOut(query, read.elements, workers, 'track')
  const ofRest = workOut(query, [{ kind: 'tangent', length: 1000 }], workers, 'track')
  const faults = read.faults.map(({ code, detail, hint }) => ({
    parameter: 'track',
    code: code as FaultCode,
    detail,
    hint,
  }))
  return { ok: false, faults: [...faults, ...(ofRest.ok ? [] : ofRest.faults)] }
}

const rail = choiceParameter('TrackRail', ['left', 'right', 'outer', 'inner', 'both'], 'a rail')
  .optional()
  .openapi(
    about('Which rail: left, right or both for a track; outer, inner or both for one curve. both when left out.'),
  )

const railLength = cell({
  name: 'rail-length',
  summary: 'Length of rail in a track or in one curve, mm',
  description:
    'For a whole track, or for one arc given by radius or diameter and angle: one rail along its own line, or both together.',
  assumes: ASSUMED_CURVE,
  query: query({
    track: TRACK.optional(),
    radius: lengthParameter('CellRadius', LENGTH)
      .optional()
      .openapi(about('Radius of the centre line of one arc; give this or diameter.')),
    diameter: lengthParameter('CellDiameter', DIAMETER)
      .optional()
      .openapi(about('Diameter of the centre line of one arc; give this or radius.')),
    angle: numberParameter('CellAngle', { least: 1e-6, most: 36_000 })
      .optional()
      .openapi(about('Angle of the arc, degrees.')),
    rail,
    gauge: PLAN_QUERY.gauge,
    section: PLAN_QUERY.section,
    closed: PLAN_QUERY.closed,
    units: UNITS,
    errors: ERRORS,
  }),
  searches: true,
  example: 'track=S6ft_Ld18ft-a45_S1p2m',
  compute: (
    { track, radius, diameter, angle, rail: wanted = 'both', units, errors: _, refresh: __, ...ofPlan },
    workers,
  ) => {
    const ofArc = { radius, diameter, angle }
    const arcGiven = Object.entries(ofArc).filter(([, value]) => value !== undefined)
    if (track !== undefined && arcGiven.length > 0)
      return refuse(
        ...arcGiven.map(([parameter]) =>
          contradictory(parameter, 'the track already has it', 'leave it out, or leave track out'),
        ),
      )
    if (track === undefined && arcGiven.length > 0 && ofPlan.closed === 'yes')
      return refuse(contradictory('closed', 'a single curve is not closed', 'leave it out, or give a whole track'))
    const of = track === undefined ? (['outer', 'inner', 'both'] as const) : (['left', 'right', 'both'] as const)
    if (!(of as readonly string[]).includes(wanted))
      return refuse(
        contradictory(
          'rail',
          `${track === undefined ? 'one curve' : 'a track'} has no ${wanted} rail`,
          `use one of ${of.join(', ')}`,
        ),
      )
    // An arc to the left: its right rail is the outer one.
    const worked =
      track === undefined ? workOutArc(ofArc, ofPlan, workers) : workOutTrack({ ...ofPlan, track }, workers)
    if (!worked.ok) return refuse(...worked.faults)
    const { left, right } = worked.estimate.tracks[0]!.rails
    const lengths = { left: left.lengthMm, right: right.lengthMm, outer: right.lengthMm, inner: left.lengthMm }
    return lengthOf(wanted === 'both' ? left.lengthMm + right.lengthMm : lengths[wanted], units)
  },
})

function workOutArc(
  {
    radius,
    diameter,
    angle,
  }: { radius?: number | undefined; diameter?: number | undefined; angle?: number | undefined },
  ofPlan: PlanQuery,
  workers: Workers,
): Worked {
  const faults: ParameterFault[] = []
  if (radius === undefined && diameter === undefined)
    faults.push({
      parameter: 'track',
      code: 'missing',
      detail: 'neither a track nor a curve is given',
      hint: 'give track, or radius or diameter with angle',
    })
  if (radius !== undefined && diameter !== undefined)
    faults.push(contradictory('radius', 'both radius and diameter are given', 'keep one of them'))
  if (angle === undefined && faults.length === 0)
    faults.push({
      parameter: 'angle',
      code: 'missing',
      detail: 'this parameter is required',
      hint: 'in degrees, such as angle=45',
    })
  if (faults.length > 0) return { ok: false, faults }
  const size = radius === undefined ? { diameter: diameter! } : { radius }
  const worked = workOut(ofPlan, [{ kind: 'arc', turn: 'left', angle: angle!, ...size }], workers, 'track')
  if (worked.ok) return worked
  return {
    ok: false,
    faults: worked.faults.map((fault) =>
      fault.parameter === 'track'
        ? {
            ...fault,
            parameter: radius === undefined ? 'diameter' : 'radius',
            detail: fault.detail.replace(/^element 1: /, ''),
          }
        : fault,
    ),
  }
}

function contradictory(parameter: string, detail: string, hint: string): ParameterFault {
  return { parameter, code: 'contradictory', detail, hint }
}

const ties = cell({
  name: 'ties',
  summary: 'Number of ties under a track or a length of straight track',
  description: 'The same as `ties` of an estimate, for a whole track or for a length of straight track.',
  assumes: `a tie spacing of ${formatMm(USUAL.tieSpacing)}`,
  query: query({
    track: TRACK.optional(),
    length: lengthParameter('TiedLength', LENGTH)
      .optional()
      .openapi(about('Length of straight track; give this or track.')),
    tieSpacing: PLAN_QUERY.tieSpacing,
    closed: PLAN_QUERY.closed,
    start: PLAN_QUERY.start,
    end: PLAN_QUERY.end,
    errors: ERRORS,
  }),
  searches: true,
  example: 'length=60ft&tieSpacing=1-3/4in',
  compute: ({ track, length, errors: _, refresh: __, ...ofPlan }, workers) => {
    if ((track === undefined) === (length === undefined))
      return refuse(
        track === undefined
          ? {
              parameter: 'track',
              code: 'missing',
              detail: 'neither a track nor a length is given',
              hint: 'give track or length',
            }
          : contradictory('length', 'the track has its own length', 'keep one of them'),
      )
    const worked =
      track === undefined
        ? workOut(ofPlan, [{ kind: 'tangent', length: length! }], workers, 'length')
        : workOutTrack({ ...ofPlan, track }, workers)
    return worked.ok ? number(worked.estimate.tracks[0]!.ties) : refuse(...worked.faults)
  },
})

/** A cell for a whole track with its supplies. */
function ofWholeTrack(
  name: string,
  summary: string,
  description: string,
  read: (
    estimate: Estimate,
    options: { count?: 'used' | 'buy' | undefined; unpriced?: 'refuse' | 'leave-out' | undefined },
  ) => CellValue,
  more: Record<string, z.ZodType> = {},
  example = 'track=S6ft_Ld18ft-a45_S1p2m&stick=6ft&stickPrice=16.00',
): Cell {
  return cell({
    name,
    summary,
    description,
    assumes: ASSUMED_SUPPLIES,
    query: query({ track: TRACK, ...PLAN_QUERY, ...more, errors: ERRORS }),
    searches: true,
    example,
    compute: (query, workers) => {
      const {
        track,
        errors: _,
        refresh: __,
        count,
        unpriced,
        ...ofPlan
      } = query as PlanQuery & {
        track: string
        errors?: unknown
        refresh?: unknown
        count?: 'used' | 'buy'
        unpriced?: 'refuse' | 'leave-out'
      }
      const worked = workOutTrack({ ...ofPlan, track }, workers)
      return worked.ok ? read(worked.estimate, { count, unpriced }) : refuse(...worked.faults)
    },
  })
}

const sticks = ofWholeTrack(
  'sticks',
  'Number of sticks of rail for a track',
  'As in the cut plan of an estimate; with count=buy, the sticks in the packs to buy.',
  ({ cutting, bill }, { count }) =>
    number(
      count === 'buy'
        ? bill.lines
            .filter(({ item }) => item === 'rail-stick')
            .reduce((sum, { packs, packSize }) => sum + packs * packSize, 0)
        : cutting.sticksUsed,
    ),
  {
    count: choiceParameter('CountedSticks', ['used', 'buy'], 'a way of counting')
      .optional()
      .openapi(about('used: the sticks that are cut; buy: the sticks to buy, in whole packs. used when left out.')),
  },
)

const joiners = ofWholeTrack(
  'joiners',
  'Number of rail joiners for a track',
  'As required on the bill of an estimate, before rounding up to whole packs.',
  ({ bill }) => number(bill.lines.find(({ item }) => item === 'joiner')?.required ?? 0),
)

/** The parameter for the price of an item. */
const PRICED_BY: Readonly<Record<string, string>> = {
  'rail-stick': 'stickPrice',
  joiner: 'joinerPrice',
  tie: 'tiePrice',
  fastener: 'fastenerPrice',
}

const cost = ofWholeTrack(
  'cost',
  'Cost of a track',
  'The total of the bill, in whole packs. Refused if something to buy has no price, unless unpriced=leave-out.',
  ({ bill }, { unpriced }) => {
    const without = bill.lines.filter(({ packs, amount }) => packs > 0 && amount === null)
    if (unpriced === 'leave-out' || without.length === 0) return number(Number(bill.total))
    return refuse(
      ...without.map(({ item, description }) => ({
        parameter: PRICED_BY[item] ?? 'unpriced',
        code: 'missing' as const,
        detail: `${description} has no price`,
        hint: 'give its price, or add unpriced=leave-out',
      })),
    )
  },
  {
    unpriced: choiceParameter('UnpricedOption', ['refuse', 'leave-out'], 'a way to treat items without a price')
      .optional()
      .openapi(
        about(
          'What to do about items to buy that have no price: refuse, or leave them out of the total. refuse when left out.',
        ),
      ),
  },
  'track=S6ft_Ld18ft-a45_S1p2m&stick=6ft&stickPrice=16.00&unpriced=leave-out',
)

export const TRACK_CELLS: readonly Cell[] = [railLength, ties, sticks, joiners, cost]
