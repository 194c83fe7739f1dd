import { measurePicture } from '../../src/measure/picture.ts'
import type { Measurements } from '../../src/measure/schema/measurements.ts'
import { GOOD } from '../rules/judging/cases.ts'

export interface Picture {
  readonly data: Buffer
  readonly width: number
  readonly height: number
}

/** What is measured of a picture for framing it; all else is as it should be. */
export async function measured(picture: Picture): Promise<Measurements> {
  const groups = await measurePicture({ ...picture, transparentShare: 0 }, ['background', 'face', 'head'])
  return { ...GOOD, widthPx: picture.width, heightPx: picture.height, ...groups }
}
