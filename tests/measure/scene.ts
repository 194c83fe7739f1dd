import { type LabPlanes, labPlanes } from '../../src/color/lab.ts'
import type { FaceGeometry } from '../../src/measure/face/face-axes.ts'

import { EDGE, type PersonMask, type Window } from '../../src/measure/person/person-mask.ts'

export interface Scene {
  readonly width: number
  readonly height: number
  readonly data: Uint8Array
  readonly lab: LabPlanes
}

export type Paint = (x: number, y: number) => readonly [number, number, number]

/** A small picture painted pixel by pixel; x and y in fractions of the frame. */
export function scene(width: number, height: number, paint: Paint): Scene {
  const data = new Uint8Array(width * height * 3)
  for (let row = 0, i = 0; row < height; row++) {
    for (let column = 0; column < width; column++, i += 3) {
      data.set(paint((column + 0.5) / width, (row + 0.5) / height), i)
    }
  }
  return { width, height, data, lab: labPlanes(data, width * height) }
}

/** A head (an ellipse, crown at `crown`, 0.3 of the width wide and 0.4 of the height tall) on shoulders. */
export function sitter(crown: number): (x: number, y: number) => boolean {
  return (x, y) => {
    const head = ((x - 0.5) / 0.15) ** 2 + ((y - crown - 0.2) / 0.2) ** 2 <= 1
    const shoulders = y > crown + 0.5 && Math.abs(x - 0.5) < 0.2 + 0.6 * (y - crown - 0.5)
    const neck = Math.abs(x - 0.5) < 0.07 && y > crown + 0.3
    return head || neck || shoulders
  }
}

/** The face geometry that belongs to `sitter(crown)`, in pixels: eyes in the middle of the head. */
export function sitterGeometry(crown: number, width: number, height: number): FaceGeometry {
  const y = (crown + 0.2) * height
  const half = 0.062 * width
  return {
    leftEye: { x: 0.5 * width - half, y },
    rightEye: { x: 0.5 * width + half, y },
    midEyes: { x: 0.5 * width, y },
    eyesError: { across: 0, down: 0 },
    eyeDistance: 2 * half,
    axis: { x: 0, y: 1 },
    chin: { x: 0.5 * width, y: (crown + 0.4) * height },
    chinError: 0,
  }
}

/** What a network would say that sees the person exactly; x and y of `isPerson` in fractions of the frame. */
export function personMask(
  isPerson: (x: number, y: number) => boolean,
  width: number,
  height: number,
  window: Window,
): PersonMask {
  const values = new Float32Array(EDGE * EDGE)
  for (let row = 0, i = 0; row < EDGE; row++)
    for (let column = 0; column < EDGE; column++, i++) {
      const x = (window.left + ((column + 0.5) * window.width) / EDGE) / width
      const y = (window.top + ((row + 0.5) * window.height) / EDGE) / height
      values[i] = isPerson(x, y) ? 1 : 0
    }
  return { window, values }
}
