/** To 0.005, as depths are printed: two decimals, or three where the last is a 5. */
export function halfHundredth(value: number): string {
  const thousandths = 5 * Math.round(value * 200)
  return (thousandths / 1000).toFixed(thousandths % 10 === 5 ? 3 : 2)
}
