import { answerTurnout } from '../../src/api/turnouts-answer.ts'
import { MM_PER_FOOT, MM_PER_INCH } from '../../src/measure/length.ts'

type Request = Parameters<typeof answerTurnout>[0]

/** Degrees, minutes and seconds of arc as degrees. */
export const degrees = (d: number, m = 0, s = 0) => d + m / 60 + s / 3600

/** The figures of a turnout as GET /v1/turnouts answers them; throws where it refuses. */
export function turnout(request: Request) {
  const answer = answerTurnout(request)
  if (!answer.ok) throw new Error(answer.faults.map(({ parameter, detail }) => `${parameter}: ${detail}`).join('; '))
  return answer.turnout
}

export const feet = (mm: number) => mm / MM_PER_FOOT
export const inches = (mm: number) => mm / MM_PER_INCH
