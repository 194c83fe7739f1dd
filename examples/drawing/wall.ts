import type { Linear } from './color.ts'
import type { Wall } from './frame.ts'

/** Color of a wall that is not plain paper, around the color `base`; u and v from 0 to 1. */
export function wallColor(wall: Wall, base: Linear, u: number, v: number): Linear {
  switch (wall) {
    case 'bricks':
      return bricks(base, u, v)
    case 'stripes':
      return stripes(base, u)
    case 'office':
      return office(base, u, v)
    default:
      return base
  }
}

function times(color: Linear, gain: number): Linear {
  return [color[0] * gain, color[1] * gain, color[2] * gain]
}

function smoothstep(low: number, high: number, value: number): number {
  const share = Math.min(1, Math.max(0, (value - low) / (high - low)))
  return share * share * (3 - 2 * share)
}

function bricks(base: Linear, u: number, v: number): Linear {
  const row = Math.floor(v * 16)
  const across = u * 6 + (row % 2) * 0.5
  const brick = Math.floor(across)
  const edge = Math.min(
    Math.min(across - brick, 1 - (across - brick)) * 2.1,
    Math.min(v * 16 - row, 1 - (v * 16 - row)),
  )
  const joint = smoothstep(0.04, 0.09, edge)
  // A fixed spread of firings, so that bricks differ.
  const shade = 0.45 + 0.35 * Math.abs(Math.sin(brick * 12.9898 + row * 78.233))
  return [
    base[0] * (0.8 + joint * (shade - 0.8)),
    base[1] * (0.8 + joint * (shade * 0.62 - 0.8)),
    base[2] * (0.8 + joint * (shade * 0.5 - 0.8)),
  ]
}

function stripes(base: Linear, u: number): Linear {
  const phase = (u * 11) % 1
  return times(base, 0.42 + 0.58 * (smoothstep(0.2, 0.26, phase) - smoothstep(0.72, 0.78, phase)))
}

/** Out-of-focus window, shelf, door and lamp: left, top, right, bottom, light and warmth. */
const ROOM = [
  [0.03, 0.02, 0.3, 0.52, 1.6, -0.08],
  [0.16, 0.02, 0.175, 0.52, -1.2, 0.1],
  [0.64, 0.1, 0.98, 0.2, -0.42, 0.25],
  [0.66, 0.2, 0.74, 0.34, -0.5, 0.5],
  [0.76, 0.22, 0.82, 0.34, 0.2, -0.3],
  [0.85, 0.18, 0.95, 0.34, -0.3, 0.2],
  [0.62, 0.36, 0.99, 0.4, -0.55, 0.3],
  [0.36, 0.0, 0.6, 0.16, -0.2, 0.12],
  [0, 0.6, 1, 1, -0.35, 0.2],
] as const

function office(base: Linear, u: number, v: number): Linear {
  let gain = 0.6
  let warmth = 0
  for (const [left, top, right, bottom, light, warm] of ROOM) {
    const soft = 0.035
    const inside =
      smoothstep(left - soft, left + soft, u) *
      (1 - smoothstep(right - soft, right + soft, u)) *
      smoothstep(top - soft, top + soft, v) *
      (1 - smoothstep(bottom - soft, bottom + soft, v))
    gain += light * inside
    warmth += warm * inside
  }
  gain = Math.max(0.06, gain * 0.75)
  return [base[0] * gain * (1 + warmth * 0.5), base[1] * gain, base[2] * gain * (1 - warmth * 0.6)]
}
