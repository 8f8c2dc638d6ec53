import { Bench } from 'tinybench'

export async function medianUs(run: () => unknown): Promise<number> {
  const bench = new Bench({ time: 1000, warmupTime: 300 })
  bench.add('task', run as () => void)
  await bench.run()
  const result = bench.tasks[0]!.result
  if (!('latency' in result)) throw new Error(`the task did not finish: ${result.state}`)
  return result.latency.p50 * 1000
}

export function line(name: string, figure: string): void {
  console.log(`${name.padEnd(58)} ${figure.padStart(14)}`)
}
