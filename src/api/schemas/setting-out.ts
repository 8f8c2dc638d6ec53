import { z } from '@hono/zod-openapi'
import type { SettingOut } from '../../estimate/questions/setting-out.ts'
import { AssumptionSchema } from './estimate.ts'
import type { Same } from './same-type.ts'

const number = z.number()
const count = z.int().min(0)
const Side = z.enum(['left', 'right'])
const said = (description: string) => ({ description })

const OffsetSchema = z.object({ alongMm: number, offsetMm: number }).openapi('PegOffset')

const PegSchema = z
  .object({
    stationMm: number.openapi(said('Along the track from its start, horizontal.')),
    atMm: number.openapi(said('Along the curve from its beginning.')),
    xMm: number,
    yMm: number,
    headingDeg: number.openapi(said('Of the track there, in [0, 360).')),
    radiusMm: number.nullable().openapi(said('Of the centre line there; null where it is straight.')),
    tangent: OffsetSchema.nullable().openapi(
      said(
        "Along the tangent at the curve's beginning and square off it, + to the side of `turn`; null once the curve has turned more than 90°.",
      ),
    ),
    longChord: OffsetSchema.nullable().openapi(
      said(
        "Along the straight line from the curve's beginning to its end and square off it, + away from the side of `turn`; null where the curve turns more than 180°.",
      ),
    ),
    deflectionDeg: number.openapi(
      said(
        "At the curve's beginning, from its tangent to the line of sight to the peg, + to the side of `turn`, in (−180, 180].",
      ),
    ),
    chordFromStartMm: number,
    chordFromPreviousMm: number,
  })
  .openapi('Peg', said('A peg on the centre line.'))

const CurveSchema = z
  .object({
    element: count,
    kind: z.enum(['arc', 'easement']),
    label: z.string().nullable(),
    turn: Side,
    fromMm: number,
    toMm: number,
    lengthMm: number,
    pegs: z.array(PegSchema),
  })
  .openapi('SettingOutCurve', said('An arc or easement with its pegs, both ends among them.'))

export const SettingOutSchema = z
  .object({
    intervalMm: number,
    tracks: z.array(
      z
        .object({ name: z.string(), label: z.string().nullable(), curves: z.array(CurveSchema) })
        .openapi('SettingOutTrack'),
    ),
    assumptions: z.array(AssumptionSchema).openapi(said('Fields are pointers into the request.')),
  })
  .openapi('SettingOut')

true satisfies Same<z.output<typeof SettingOutSchema>, SettingOut>
