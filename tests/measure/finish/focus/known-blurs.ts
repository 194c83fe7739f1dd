import { expect } from 'vitest'
import type { RgbPicture } from '../../../../src/imaging/rgb-picture.ts'
import { measureFocus } from '../../../../src/measure/finish/focus/eye-focus.ts'
import type { Face } from '../../../../src/measure/schema/measurements.ts'
import { GOOD } from '../../../rules/judging/cases.ts'
import { blurred, type Eyes } from './drawn-eyes.ts'

export const FACE = GOOD.face as Face

/** A code of eight bits. */
export const clamp = (value: number) => Math.max(0, Math.min(255, Math.round(value)))

/** The sharpness of the sharper eye, in px at 240 px between the eyes; not a number when none is read. */
export function read({ irises }: Eyes, picture: RgbPicture): number {
  return measureFocus(picture, irises, [], FACE).eyePx ?? Number.NaN
}

/** Readings must rise with the blur and, from 1 px up, be within a share of what the blur and the eyes' own spread add up to. */
export async function expectKnownBlurs(eyes: Eyes, sigmas: readonly number[], within: number): Promise<void> {
  const own = read(eyes, eyes.picture)
  let before = own
  for (const sigma of sigmas) {
    const reading = read(eyes, await blurred(eyes.picture, sigma * eyes.scale))
    expect(reading, `${sigma} px`).toBeGreaterThan(before)
    const allowed = sigma >= 1 ? within : Infinity
    expect(Math.abs(reading / Math.hypot(own, sigma) - 1), `${sigma} px`).toBeLessThan(allowed)
    before = reading
  }
}
