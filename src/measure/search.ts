/**
 * Index of the first of `count` items, in order, for which `reached` holds; `count` when it holds for none. Whatever
 * `reached` looks at must go from false to true once along the items. O(log count).
 */
export function firstIndexWhere(count: number, reached: (index: number) => boolean): number {
  let low = 0
  let high = count
  while (low < high) {
    const middle = (low + high) >> 1
    if (reached(middle)) high = middle
    else low = middle + 1
  }
  return low
}
