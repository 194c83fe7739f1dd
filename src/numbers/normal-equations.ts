/** One row for each of three parameters: the products of their slopes, and last that with what is left over. */
type Row = [number, number, number, right: number]
export type Normal = [Row, Row, Row]
type Triple = readonly [number, number, number]

export function emptyNormal(): Normal {
  return [
    [0, 0, 0, 0],
    [0, 0, 0, 0],
    [0, 0, 0, 0],
  ]
}

/**
 * The step that the normal equations ask for, their diagonal raised by the share `damping` (Marquardt, SIAM Journal on
 * Applied Mathematics 11, 1963), by Cramer's rule. Null when they are singular.
 */
export function dampedStep([p, q, r]: Normal, damping: number): [number, number, number] | null {
  const raised = (value: number) => value * (1 + damping) + 1e-9
  const a = [raised(p[0]), p[1], p[2]] as const
  const b = [q[0], raised(q[1]), q[2]] as const
  const c = [r[0], r[1], raised(r[2])] as const
  const whole = determinant(a, b, c)
  if (!(Math.abs(whole) > 1e-30)) return null
  return [
    determinant([p[3], a[1], a[2]], [q[3], b[1], b[2]], [r[3], c[1], c[2]]) / whole,
    determinant([a[0], p[3], a[2]], [b[0], q[3], b[2]], [c[0], r[3], c[2]]) / whole,
    determinant([a[0], a[1], p[3]], [b[0], b[1], q[3]], [c[0], c[1], r[3]]) / whole,
  ]
}

/** Variance of the second parameter where what is left over has variance 1: its place in the inverse. Infinite when singular. */
export function varianceOfSecond([p, q, r]: Normal): number {
  const whole = determinant([p[0], p[1], p[2]], [q[0], q[1], q[2]], [r[0], r[1], r[2]])
  return whole > 0 ? (p[0] * r[2] - p[2] * r[0]) / whole : Number.POSITIVE_INFINITY
}

function determinant(a: Triple, b: Triple, c: Triple): number {
  return (
    a[0] * (b[1] * c[2] - b[2] * c[1]) -
    a[1] * (b[0] * c[2] - b[2] * c[0]) +
    a[2] * (b[0] * c[1] - b[1] * c[0])
  )
}
