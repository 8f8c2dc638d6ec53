import { z } from '@hono/zod-openapi'
import type * as answer from '../../estimate/answer.ts'
import type { Same } from './same-type.ts'

/* Joints and what the weather does to rail, as the OpenAPI document shows them; held to the program's own types. */

const number = z.number()
const said = (description: string) => ({ description })

export const JointSchema = z
  .object({
    track: z.string(),
    rail: z.enum(['left', 'right']),
    atMm: number.openapi(said('Along that rail from its own start; a loop closes at 0.')),
    stationMm: number.openapi(said('On the centre line, abreast of it.')),
    kind: z
      .enum(['joiner', 'closing', 'join', 'turnout', 'insulated', 'bridge-end', 'expansion'])
      .openapi(
        said(
          'joiner: between pieces of a rail; closing: where a loop closes; join: to other track; else what a break asks for.',
        ),
      ),
    gapMm: number
      .nullable()
      .openapi(
        said('To leave open when the rail is laid; null without climate, or for a metal whose expansion is unknown.'),
      ),
    gapInch64: z.string().nullable().openapi(said('The same to the nearest 1/64 in.')),
    gapColdestMm: number.nullable(),
    gapHottestMm: number.nullable(),
  })
  .openapi('Joint', said('A place where two rail ends meet.'))

export const ExpansionSchema = z
  .object({
    joints: z.enum(['sliding', 'clamped']),
    held: z.boolean(),
    layingC: number,
    coldestC: number,
    hottestC: number.openapi(said('Of the rail, the sun included.')),
    expansionPerK: number.nullable().openapi(said('Null for a metal given without it; so is what hangs on it.')),
    growthPerMetreMm: number.nullable().openapi(said('From the coldest to the hottest.')),
    gapLimitMm: number,
    expansionJointLimitMm: number,
    longestLengthMm: number
      .nullable()
      .openapi(said('The longest piece, or the longest clamped length, whose gaps are not too wide; null: no limit.')),
    heldStressHottestMpa: number.nullable().openapi(said('Compression, were the rail kept from moving.')),
    heldStressColdestMpa: number.nullable().openapi(said('Tension, were it kept from moving.')),
    heldForceHottestN: number.nullable().openapi(said('In one rail.')),
    heldForceColdestN: number.nullable(),
    bucklingLengthMm: number
      .nullable()
      .openapi(said('One held rail, free sideways over this length, buckles; null where it is not compressed.')),
    lengths: z
      .array(
        z
          .object({
            track: z.string(),
            fromMm: number.openapi(said('Stations on the centre line; on a loop it may run over the start.')),
            toMm: number,
            leftMm: number.openapi(said('Of the left rail.')),
            rightMm: number,
            expansionJointsAtMm: z
              .array(number)
              .nullable()
              .openapi(said('Where expansion joints would make it short enough; null: too many to list.')),
            growthMm: number.openapi(said('Of the longer rail, from the coldest to the hottest.')),
          })
          .openapi('ClampedLength'),
      )
      .openapi(said('Clamped rail that floats: the lengths that move as one.')),
    breathing: z
      .array(
        z.object({ track: z.string(), element: z.int().min(0), radiusMm: number, outwardMm: number, inwardMm: number }),
      )
      .openapi(said('Clamped rail that floats: how far each arc moves out when hottest and in when coldest.')),
  })
  .openapi('Expansion', said('What the weather does to the rails. Temperatures are of the rail, °C.'))

true satisfies Same<z.output<typeof JointSchema>, answer.JointAnswer>
true satisfies Same<z.output<typeof ExpansionSchema>, answer.ExpansionAnswer>
