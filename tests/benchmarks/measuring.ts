import { Bench } from 'tinybench'

/** @param warmupMs how long it runs before: what has many parts is compiled bit by bit, while it is used */
export async function medianUs(run: () => unknown, warmupMs = 300): Promise<number> {
  const bench = new Bench({ time: 1000, warmupTime: warmupMs })
  bench.add('task', run as () => void)
  await bench.run()
  const result = bench.tasks[0]!.result
  if (!('latency' in result)) throw new Error(`the task did not finish: ${result.state}`)
  return result.latency.p50 * 1000
}

export function line(name: string, figure: string): void {
  console.log(`${name.padEnd(58)} ${figure.padStart(14)}`)
}
