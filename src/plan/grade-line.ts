/** A point of a grade line as it was sent, or with nothing left open. */
export interface GradeLinePoint {
  readonly at: number
  readonly elevation?: number | null | undefined
  readonly gradePct?: number | null | undefined
  readonly verticalCurve?: number | null | undefined
}

/** Where the grade changes: a point of the grade line, or the start of the track. */
export interface GradeNode {
  readonly atMm: number
  /** Of the two grades that meet here; a vertical curve passes below or above it. */
  readonly elevationMm: number
  /** Rise over level run from here on, where the plan gives it. */
  readonly grade: number | null
  /** Length of the vertical curve centred here; 0: none. */
  readonly curveMm: number
}

interface OpenNode extends Omit<GradeNode, 'elevationMm'> {
  elevationMm: number | null
}

/**
 * The points of a grade line with all elevations. A grade that is given leads from one point to the next, so either gives
 * the other; where neither says how high a point is, the track is level up to it. Without any elevation a track starts at 0.
 *
 * @param points in order of station
 * @param startElevationMm of the start of the track, where it is given
 */
export function gradeNodes(points: readonly GradeLinePoint[], startElevationMm?: number | null): GradeNode[] {
  const nodes = points.map(nodeOf)
  const first = nodes[0]
  if (first?.atMm === 0) first.elevationMm ??= startElevationMm ?? null
  else nodes.unshift({ atMm: 0, elevationMm: startElevationMm ?? null, grade: null, curveMm: 0 })
  for (let index = nodes.length - 2; index >= 0; index--) {
    const node = nodes[index]!
    const riseMm = riseAfter(node, nodes[index + 1]!)
    const nextMm = nodes[index + 1]!.elevationMm
    if (node.elevationMm === null && nextMm !== null && riseMm !== null) node.elevationMm = nextMm - riseMm
  }
  // Level up to the first point with an elevation.
  const start = nodes[0]!
  if (start.elevationMm === null) start.elevationMm = (start.grade === null ? nodes[1]?.elevationMm : null) ?? 0
  for (const [index, node] of nodes.entries()) {
    const before = nodes[index - 1]
    if (before) node.elevationMm ??= before.elevationMm! + (riseAfter(before, node) ?? 0)
  }
  return nodes as GradeNode[]
}

function nodeOf({ at: atMm, elevation, gradePct, verticalCurve }: GradeLinePoint): OpenNode {
  return {
    atMm,
    elevationMm: elevation ?? null,
    grade: gradePct == null ? null : gradePct / 100,
    curveMm: verticalCurve ?? 0,
  }
}

function riseAfter({ grade, atMm }: Pick<GradeNode, 'grade' | 'atMm'>, next: Pick<GradeNode, 'atMm'>): number | null {
  return grade === null ? null : grade * (next.atMm - atMm)
}

/**
 * A grade line whose grades do not lead from the elevation of its start to one that is given: the point that has it, and
 * the elevation to which they lead. Null where they agree.
 */
export function elevationMissed(
  points: readonly GradeLinePoint[],
  startElevationMm: number | null | undefined,
): { readonly point: number; readonly reachedMm: number } | null {
  if (startElevationMm == null || points[0]?.at !== 0) return null
  let reachedMm = startElevationMm
  for (const [index, { at, gradePct, elevation }] of points.entries()) {
    if (index > 0 && elevation != null) return { point: index, reachedMm }
    const next = points[index + 1]
    if (gradePct == null || !next) return null
    reachedMm += (gradePct / 100) * (next.at - at)
  }
  return null
}
