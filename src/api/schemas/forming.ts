import { z } from '@hono/zod-openapi'
import type { Bend } from '../../bending/bends.ts'
import { MOST_PASSES } from '../../bending/forming/form-bend.ts'
import type * as answer from '../../bending/forming/types.ts'
import type { Same } from './same-type.ts'

/*
 * How to bend, as the OpenAPI document shows it. The last lines do not compile when the program's own types differ.
 */

const number = z.number()
const count = z.int().min(0)
const Side = z.enum(['left', 'right'])
const End = z.enum(['start', 'end'])
const said = (description: string) => ({ description })

export const OrdinatesSchema = z
  .object({
    chordMm: number,
    midMm: number.openapi(said('At the middle of the chord.')),
    quarterMm: number.openapi(said('At its quarter points.')),
    threeEighthsMm: number.openapi(said('Three eighths of the chord from its ends.')),
    eighthMm: number.openapi(said('An eighth of the chord from its ends.')),
    radiusErrorPct: number
      .nullable()
      .openapi(said('Worst error of the radius read on this chord, percent; null: it might as well be straight.')),
  })
  .openapi('Ordinates', said('How far a bent rail stands off a chord, on the concave side of its head.'))

const BandSchema = z.object({ lowMm: number, highMm: number }).openapi('RadiusBand')
const PassSchema = z.object({ pass: count, depthMm: number, turns: number.nullable() }).openapi('Pass')

export const BendFormingSchema = z
  .object({
    method: z.enum(['hand', 'machine']),
    reasonId: z.enum(['assembled', 'hand-force', 'overbend', 'joints', 'within-limits']),
    reason: z.string(),
    checks: z.array(
      z.object({
        reason: z.enum(['assembled', 'hand-force', 'overbend', 'joints']),
        value: number.nullable(),
        limit: number.nullable(),
        favours: z.enum(['hand', 'machine']),
      }),
    ),
    basis: z
      .string()
      .nullable()
      .openapi(said("A temper, 'calibrated', 'own', or null where only the material is known.")),
    formingRadiusMm: number
      .nullable()
      .openapi(said("Of the rail's own line, under load; null where nothing tells the yield.")),
    overbendRatio: number.nullable(),
    band: BandSchema.openapi(said('Between these the forming radius lies.')),
    tempers: z.array(z.object({ temper: z.string(), formingRadiusMm: number, band: BandSchema })),
    elasticLimitRadiusMm: number.nullable(),
    elasticLimitSetShare: number.nullable(),
    momentNm: number.nullable(),
    maxStrainPct: number.nullable(),
    elongationPct: number.nullable(),
    residualStressMpa: number.nullable(),
    residualStressInsideMpa: number.nullable(),
    springIn: z
      .object({
        endCoupleNm: number,
        forcePairN: number,
        tieSpacingMm: number,
        setShare: number,
        setEndsFromMm: number,
        setEndsToMm: number,
      })
      .nullable(),
    machine: z
      .object({
        depthMm: number,
        depthFrom: z.enum(['test-passes', 'starting-estimate']),
        turns: number.nullable(),
        arcDepthMm: number.nullable(),
        elasticDepthMm: number,
        passes: z
          .array(PassSchema)
          .openapi(
            said(
              `To the depth in equal steps of at most maxPerPass; empty where that takes more than ${MOST_PASSES}, which the finding too-many-passes says.`,
            ),
          ),
        pressStepMm: number.nullable(),
        straightEndMm: number,
        trimLengthMm: number,
        ends: z.enum(['trim', 'finish-by-hand', 'join-and-roll-through']),
      })
      .nullable()
      .openapi(said('How to set the roller bender; null where it cannot be told, and noMachine says why.')),
    noMachine: z
      .enum(['no-rollers', 'yield-unknown', 'span-too-long', 'before-touching'])
      .nullable()
      .openapi(
        said(
          'Why machine is null. no-rollers: the request tells of no roller bender; yield-unknown: neither temper nor test bends tell the yield; span-too-long: the rail would have to be pressed in deeper than half the span; before-touching: by the line of the test passes the rail would not even be touched. Null where there is a setting.',
        ),
      ),
    assembled: z.object({ missMm: number, missPct: number, creepMm: number, fixedEnd: End, trimAt: End }).nullable(),
  })
  .openapi('BendForming', said('How to bend one rail of one curve.'))

export const BendSchema = z
  .object({
    track: z.string(),
    element: count,
    rail: z.enum(['outer', 'inner']),
    side: Side,
    turn: Side,
    radiusMm: number.openapi(said("Of the rail's own line.")),
    measuredRadiusMm: number.openapi(said('Of the concave side of the head; ordinates are computed here.')),
    lengthMm: number,
    ordinates: z.array(OrdinatesSchema),
    recommendedChordMm: number.nullable().openapi(said('The shortest that tells the radius and fits.')),
    smallestChordMm: number.nullable(),
    forming: BendFormingSchema,
    readyMade: z
      .boolean()
      .openapi(said('It comes bent: ready-made pieces cover it, and the ordinates are for checking.')),
  })
  .openapi('Bend', said('One rail of one arc.'))

export const EasementFormingSchema = z
  .object({
    track: z.string(),
    element: count,
    side: Side,
    stations: z.array(
      z.object({ atMm: number, wantedRadiusMm: number.nullable(), formingRadiusMm: number.nullable() }),
    ),
  })
  .openapi('EasementForming', said('Forming radii along one rail of an easement.'))

export const CalibrationSchema = z
  .object({
    effectiveYieldMpa: number.nullable(),
    lowMpa: number.nullable(),
    highMpa: number.nullable(),
    determined: z.enum(['well', 'fairly', 'poorly']),
    from: z.enum(['radii', 'passes']),
    consistent: z.boolean(),
    readings: z.array(
      z.object({
        yieldMpa: number.nullable(),
        lowMpa: number.nullable(),
        highMpa: number.nullable(),
        sensitivity: number.nullable(),
        used: z.boolean(),
      }),
    ),
    benderLine: z.object({ offsetMm: number, scale: number, passes: count, spreadMm: number.nullable() }).nullable(),
  })
  .openapi('Calibration', said('What test bends told.'))

true satisfies Same<z.output<typeof BendFormingSchema>, answer.BendForming>
true satisfies Same<z.output<typeof BendSchema>, Bend>
true satisfies Same<z.output<typeof EasementFormingSchema>, answer.EasementForming>
true satisfies Same<z.output<typeof CalibrationSchema>, answer.CalibrationAnswer>
