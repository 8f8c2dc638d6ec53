/** A, B, … Z, AA, AB, …, from 0: as spreadsheets name their columns. */
export function lettersOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26))
  return index < 26 ? last : lettersOf(Math.floor(index / 26) - 1) + last
}
