/** Degrees in a radian. A product with this and `toDegrees` may differ in the last digit. */
export const DEG_PER_RAD = 180 / Math.PI

export function toDegrees(rad: number): number {
  return (rad * 180) / Math.PI
}

export function toRadians(deg: number): number {
  return (deg * Math.PI) / 180
}
