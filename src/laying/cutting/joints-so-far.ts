/**
 * The joints of a run from its start on, the last first. Half-finished plans share what they have in common. `jump` leads
 * over several joints at once, so that one near a station is found in O(log n) (skew-binary jump pointers, E. Myers, "An
 * applicative random-access stack", 1983).
 */
export interface Joint {
  readonly stationMm: number
  readonly before: Joint | null
  readonly jump: Joint | null
  readonly count: number
}

export function jointAfter(before: Joint | null, stationMm: number): Joint {
  if (!before) return { stationMm, before, jump: null, count: 1 }
  const { jump } = before
  const isPair = before.count - (jump?.count ?? 0) === (jump?.count ?? 0) - (jump?.jump?.count ?? 0)
  return { stationMm, before, jump: isPair ? (jump?.jump ?? null) : before, count: before.count + 1 }
}

/** The last joint at a station below this. */
export function lastBefore(joint: Joint | null, stationMm: number): Joint | null {
  let at = joint
  while (at && at.stationMm >= stationMm) at = at.jump && at.jump.stationMm >= stationMm ? at.jump : at.before
  return at
}
