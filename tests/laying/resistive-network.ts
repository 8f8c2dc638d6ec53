/**
 * Resistance between one place of a rail and the supply behind all its feeders: nodes at the feeders and at the place,
 * conductances between neighbours (on a loop also round its closing), solved by elimination with pivoting.
 */
export function resistanceToSupply(
  atMm: number,
  feedersMm: readonly number[],
  rail: { readonly lengthMm: number; readonly closed: boolean; readonly ohmPerMm: number; readonly feederOhm: number },
): number {
  const nodes = [...new Set([...feedersMm, atMm])].sort((a, b) => a - b)
  const size = nodes.length
  const rows = nodes.map((mm) => [...nodes.map(() => 0), mm === atMm ? 1 : 0])
  const connect = (a: number, b: number, siemens: number) => {
    rows[a]![a]! += siemens
    rows[b]![b]! += siemens
    rows[a]![b]! -= siemens
    rows[b]![a]! -= siemens
  }
  for (const [n, mm] of nodes.entries()) {
    if (feedersMm.includes(mm)) rows[n]![n]! += 1 / rail.feederOhm
    if (n > 0) connect(n - 1, n, 1 / ((mm - nodes[n - 1]!) * rail.ohmPerMm))
  }
  if (rail.closed && size > 1) connect(size - 1, 0, 1 / ((rail.lengthMm - nodes.at(-1)! + nodes[0]!) * rail.ohmPerMm))
  for (let pivot = 0; pivot < size; pivot++)
    for (let row = 0; row < size; row++) {
      if (row === pivot) continue
      const factor = rows[row]![pivot]! / rows[pivot]![pivot]!
      for (let column = pivot; column <= size; column++) rows[row]![column]! -= factor * rows[pivot]![column]!
    }
  const at = nodes.indexOf(atMm)
  return rows[at]![size]! / rows[at]![at]!
}
