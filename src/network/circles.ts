/**
 * Which runs lie on a circle together (strongly connected components): two runs have the same number if each can be
 * reached from the other. Tarjan's method, not recursive.
 *
 * @param links by end, the ends at which a train goes on that leaves by it
 */
export function circlesThrough(links: readonly (readonly number[])[]): number[] {
  const order = new Array<number>(links.length).fill(-1)
  const low = [...order]
  const circle = [...order]
  const stack: number[] = []
  let count = 0
  for (const first of links.keys()) {
    if (order[first] !== -1) continue
    const calls = [{ run: first, at: 0 }]
    while (calls.length > 0) {
      const call = calls.at(-1)!
      const { run } = call
      if (call.at === 0) {
        order[run] = low[run] = count++
        stack.push(run)
      }
      const next = links[run ^ 1]![call.at++]
      if (next === undefined) {
        calls.pop()
        if (low[run] === order[run]) {
          let member: number
          do {
            member = stack.pop()!
            circle[member] = run
          } while (member !== run)
        }
        const caller = calls.at(-1)
        if (caller) low[caller.run] = Math.min(low[caller.run]!, low[run]!)
      } else if (order[next] === -1) calls.push({ run: next, at: 0 })
      else if (circle[next] === -1) low[run] = Math.min(low[run]!, order[next]!)
    }
  }
  return circle
}
