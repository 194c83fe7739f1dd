export type Triple = readonly [number, number, number]
/** Three rows of three. */
export type Matrix = readonly [Triple, Triple, Triple]

export function determinant([p, q, r]: Matrix): number {
  return dot(p, cross(q, r))
}

/** By the adjugate: its columns are the cross products of the rows. Infinite or not a number when there is no inverse. */
export function invert(m: Matrix): Matrix {
  const [p, q, r] = m
  const whole = determinant(m)
  const over = ([x, y, z]: Triple): Triple => [x / whole, y / whole, z / whole]
  return transpose([over(cross(q, r)), over(cross(r, p)), over(cross(p, q))])
}

/** The x of m x = right, by Cramer's rule. Infinite or not a number when there is no one solution. */
export function solve([p, q, r]: Matrix, right: Triple): [number, number, number] {
  const whole = determinant([p, q, r])
  const [x, y, z] = right
  return [
    determinant([
      [x, p[1], p[2]],
      [y, q[1], q[2]],
      [z, r[1], r[2]],
    ]) / whole,
    determinant([
      [p[0], x, p[2]],
      [q[0], y, q[2]],
      [r[0], z, r[2]],
    ]) / whole,
    determinant([
      [p[0], p[1], x],
      [q[0], q[1], y],
      [r[0], r[1], z],
    ]) / whole,
  ]
}

export function apply(m: Matrix, v: Triple): Triple {
  return [dot(m[0], v), dot(m[1], v), dot(m[2], v)]
}

export function multiply(m: Matrix, n: Matrix): Matrix {
  const columns = transpose(n)
  return transpose([apply(m, columns[0]), apply(m, columns[1]), apply(m, columns[2])])
}

export function transpose([p, q, r]: Matrix): Matrix {
  return [
    [p[0], q[0], r[0]],
    [p[1], q[1], r[1]],
    [p[2], q[2], r[2]],
  ]
}

export function diagonal([p, q, r]: Triple): Matrix {
  return [
    [p, 0, 0],
    [0, q, 0],
    [0, 0, r],
  ]
}

export function dot(p: Triple, q: Triple): number {
  return p[0] * q[0] + p[1] * q[1] + p[2] * q[2]
}

function cross(p: Triple, q: Triple): Triple {
  return [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]]
}
