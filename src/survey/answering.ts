import { formatMm } from '../measure/length.ts'
import type { Assumption } from '../plan/fields/complete.ts'
import type { WholeSurvey } from '../plan/rows/survey.ts'
import type { Adjusted } from './adjusting.ts'
import type { SurveyAnswer } from './answer.ts'
import { ellipseOf } from './ellipse.ts'
import { stationsOf } from './lines.ts'
import type { Net } from './net.ts'
import { type KnownPeg, pegOutOf } from './peg-out.ts'
import { residualsOf } from './residuals.ts'

/** A survey that was worked out, before it is put in words. */
interface Worked {
  readonly survey: WholeSurvey
  readonly net: Net
  readonly adjusted: Adjusted
  /** Why a point has no place. */
  readonly noPlaces: ReadonlyMap<number, string>
}

const NO_ELEVATION = 'no rise connects it with a known elevation'

/** Everything that was worked out, with the names of the answer. */
export function answered(worked: Worked, assumptions: Assumption[]): SurveyAnswer {
  const { survey, net } = worked
  const of = worked.adjusted
  const covariance = (a: number, b: number) =>
    a < 0 || b < 0 ? 0 : of.covariance!.values[a * of.covariance!.size + b]!
  const height = (index: number) => {
    const elevationMm = of.elevationsMm[index]!
    const column = of.columns.z[index]!
    const isKnown = elevationMm !== null
    return {
      elevationMm,
      elevationErrorMm: isKnown ? Math.sqrt(covariance(column, column)) : null,
      noElevation: isKnown ? null : NO_ELEVATION,
    }
  }
  const pegs = survey.pegs.map(({ name, x, y }, index) => ({ name, xMm: x, yMm: y, ...height(index) }))
  const points = net.names.slice(net.pegs).map((name, at) => {
    const index = net.pegs + at
    const place = of.places[index]
    const column = of.columns.x[index]!
    return {
      name,
      xMm: place?.xMm ?? null,
      yMm: place?.yMm ?? null,
      error: place
        ? ellipseOf(covariance(column, column), covariance(column + 1, column + 1), covariance(column, column + 1))
        : null,
      noPlace: place ? null : (worked.noPlaces.get(index) ?? null),
      ...height(index),
      pegOut: place ? pegOutOf(place, of.elevationsMm[index]!, pegs as readonly KnownPeg[], survey.tapeError) : null,
    }
  })
  const lines = survey.lines.map(({ name, from, to, readings }): SurveyAnswer['lines'][number] => {
    const [a, b] = [net.names.indexOf(from), to === null ? -1 : net.names.indexOf(to)]
    const [fromMm, toMm] = [of.elevationsMm[a]!, b < 0 ? null : of.elevationsMm[b]!]
    const [za, zb] = [of.columns.z[a]!, b < 0 ? -1 : of.columns.z[b]!]
    const riseMm = readings.reduce((sum, { rise }) => sum + rise, 0)
    return {
      name,
      from,
      to,
      lengthMm: readings.reduce((sum, { length }) => sum + length, 0),
      riseMm,
      misclosureMm: fromMm === null || toMm === null ? null : riseMm - (toMm - fromMm),
      noElevation: fromMm === null ? NO_ELEVATION : null,
      stations:
        fromMm === null
          ? []
          : stationsOf(
              readings,
              fromMm,
              toMm,
              { from: covariance(za, za), to: covariance(zb, zb), both: covariance(za, zb) },
              survey.levelError,
            ),
    }
  })
  const unknowns = of.columns.count
  const used = of.rows.filter((row) => row !== null).length
  const readings = readingsOf(worked)
  return {
    pegs,
    points,
    lines,
    readings,
    redundancy: used - unknowns,
    fit: used > unknowns ? Math.sqrt(of.sumOfSquares / (used - unknowns)) : null,
    suspects: suspectsOf(readings),
    assumptions,
  }
}

function readingsOf({ net, adjusted }: Worked): SurveyAnswer['readings'] {
  const residuals = residualsOf(adjusted)
  return net.readings.map(({ list, index, from, to, measuredMm }, at) => {
    const residual = residuals[at]
    return {
      kind: list === 'distances' ? 'distance' : list === 'levels' ? 'rise' : 'line',
      index,
      from: net.names[from]!,
      to: net.names[to]!,
      measuredMm,
      adjustedMm: residual ? measuredMm + residual.residualMm : null,
      residualMm: residual?.residualMm ?? null,
      redundancy: residual?.redundancy ?? null,
      test: residual?.test ?? null,
      isSuspect: residual?.isSuspect ?? false,
    }
  })
}

/** Tests as near as this are the same: one reading too many cannot tell which of several is wrong. */
const SAME_TEST = 1e-6

function suspectsOf(readings: SurveyAnswer['readings']): SurveyAnswer['suspects'] {
  const worst = [...readings.entries()]
    .filter(([, { isSuspect }]) => isSuspect)
    .sort(([, a], [, b]) => Math.abs(b.test!) - Math.abs(a.test!))
  return worst.map(([reading, { kind, from, to, measuredMm, residualMm, test }], place) => {
    const alike = worst.filter(
      ([, other]) => Math.abs(Math.abs(other.test!) - Math.abs(test!)) < SAME_TEST * Math.abs(test!),
    )
    const what = `The ${kind} of ${formatMm(measuredMm, 1)} from ${from} to ${to} is ${formatMm(Math.abs(residualMm!), 1)} off what the other readings say, ${Math.abs(test!).toFixed(1)} times what is usual.`
    const others =
      alike.length > 1
        ? ` ${alike.length} readings are off alike: any of them may be the wrong one, as too few check each other.`
        : ''
    return {
      reading,
      message: `${what}${others} ${place === 0 ? 'Measure it again first.' : 'It may be right once those before it are.'}`,
    }
  })
}
