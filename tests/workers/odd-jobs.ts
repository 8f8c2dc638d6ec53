/** What worker threads of the tests can be asked for: things that go wrong, and things that take as long as they are told. */

export function echo<T>(value: T): T {
  return value
}

/** Keeps its thread busy. */
export function spin(ms: number): string {
  const untilMs = performance.now() + ms
  while (performance.now() < untilMs);
  return `spun ${ms} ms`
}

export function fail(message: string): never {
  throw new RangeError(message)
}

/** Takes memory until there is none. */
export function exhaust(_: null): never {
  const kept: number[][] = []
  for (;;) kept.push(new Array<number>(1_000_000).fill(kept.length + 0.5))
}

export function vanish(code: number): never {
  process.exit(code)
}

/** Reads a source when it is asked for, as what prints is read. */
export async function readLater(mm: number): Promise<string> {
  const { formatMm } = await import('../../src/measure/length.ts')
  return formatMm(mm)
}
