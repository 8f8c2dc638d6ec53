/** Numbers in [0, 1) that are the same for the same seed (a multiplicative generator modulo 2³¹ − 1). */
export function randomFrom(seed: number): () => number {
  let state = seed % 2147483647 || 1
  return () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
}
