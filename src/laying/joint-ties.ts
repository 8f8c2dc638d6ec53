import { LENGTH_SLACK_MM, wholePiecesIn } from '../measure/counting.ts'

/** Where the ties of a track are before any are added for its joints: every spacing from station 0 on. */
export interface TieRow {
  /** Along the centre line. */
  readonly lengthMm: number
  /** The actual spacing; in a closed track a whole fraction of its length. */
  readonly spacingMm: number
  readonly closed: boolean
}

/** Stations between which a tie is missing on one side of a joint. */
interface MissingTie {
  readonly fromMm: number
  readonly toMm: number
}

/**
 * The fewest ties to add so that every joint is between two ties (a suspended joint), with one on each side within half
 * a spacing of it. An added tie serves every joint it is close enough to, of both rails: joints opposite each other
 * share theirs. A tie under the joint itself serves one side only, as it has to be moved to that side. Where an open
 * track joins other track the tie they share serves the side beyond the joint. On plain track a joint lacks one tie,
 * unless it is midway between two.
 *
 * Stretches with a tie missing are served in the order in which they end, each by a tie as far along as possible,
 * which takes the fewest. A closed track is opened at the longest distance between joints; exact where that is over a
 * spacing.
 *
 * @param jointsMm stations of the joints of both rails, in any order, each once or more
 * @returns a count; checked against an exhaustive search in tests/laying/joint-ties.test.ts
 */
export function tiesToAddAtJoints(row: TieRow, jointsMm: readonly number[]): number {
  const lacking = inOrder(row, jointsMm).flatMap((jointMm) => missingTiesAt(jointMm, row))
  lacking.sort((a, b) => a.toMm - b.toMm)
  let added = 0
  let reachedMm = Number.NEGATIVE_INFINITY
  for (const { fromMm, toMm } of lacking) {
    if (fromMm <= reachedMm) continue
    reachedMm = toMm
    added++
  }
  return added
}

/** The joints in order along the track; on a closed track, starting after the longest distance without one. */
function inOrder({ lengthMm, closed }: TieRow, jointsMm: readonly number[]): number[] {
  if (!closed) return jointsMm.toSorted((a, b) => a - b)
  const round = jointsMm.map((mm) => (mm >= lengthMm - LENGTH_SLACK_MM ? 0 : mm)).sort((a, b) => a - b)
  const wayBefore = round.map((mm, index) => mm - (round[index - 1] ?? round.at(-1)! - lengthMm))
  const first = wayBefore.indexOf(Math.max(...wayBefore))
  return [...round.slice(first), ...round.slice(0, first).map((mm) => mm + lengthMm)]
}

function missingTiesAt(jointMm: number, { lengthMm, spacingMm, closed }: TieRow): MissingTie[] {
  const halfMm = spacingMm / 2
  const lastMm = closed ? Number.POSITIVE_INFINITY : wholePiecesIn(lengthMm, spacingMm) * spacingMm
  const atEnd = !closed && jointMm >= lengthMm - LENGTH_SLACK_MM
  const atStart = !closed && jointMm <= LENGTH_SLACK_MM
  // A tie under the joint counts as the one before it, but at the end of a track as the one beyond.
  const reachMm = jointMm + (atEnd ? -LENGTH_SLACK_MM : LENGTH_SLACK_MM)
  const beforeMm = Math.min(Math.floor(reachMm / spacingMm) * spacingMm, lastMm)
  const afterMm = beforeMm + spacingMm
  const lacking: MissingTie[] = []
  if (!atStart && jointMm - beforeMm > halfMm + LENGTH_SLACK_MM)
    lacking.push({
      fromMm: closed ? jointMm - halfMm : Math.max(0, jointMm - halfMm),
      toMm: jointMm - LENGTH_SLACK_MM,
    })
  const noneAfter = afterMm > lastMm + LENGTH_SLACK_MM
  if (!atEnd && (noneAfter || afterMm - jointMm > halfMm + LENGTH_SLACK_MM))
    lacking.push({
      fromMm: jointMm + LENGTH_SLACK_MM,
      toMm: closed ? jointMm + halfMm : Math.min(lengthMm, jointMm + halfMm),
    })
  return lacking
}
