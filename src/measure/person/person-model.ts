import { bilinear } from '../../imaging/bilinear.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { type LiteNetwork, loadLiteNetwork } from '../networks/lite-network.ts'
import { EDGE, type PersonMask, type Window } from './person-mask.ts'

export interface PersonModel {
  /** Looks for the person in a part of the picture; what lies outside is taken for as the nearest edge is. */
  find(picture: RgbPicture, window: Window): Promise<PersonMask>
}

/** In the package of that name (Apache-2.0): a network that tells people from what is behind them, for video calls. */
const FILE = '@mediapipe/selfie_segmentation/selfie_segmentation.tflite'

/** One picture, rows, columns and channels. @source the model's own input. */
const SHAPE = [1, EDGE, EDGE, 3]

/** Codes to the network's values, from 0 to 1. @source the model's own input. */
const RANGE = { scale: 1 / 255, offset: 0 }

let loading: Promise<PersonModel> | undefined

/**
 * The network that tells the person from the background, loaded once a thread. It knows nobody.
 * @throws Error when its package is not installed
 */
export function loadPersonModel(): Promise<PersonModel> {
  loading ??= loadLiteNetwork(FILE).then(modelOf)
  return loading
}

function modelOf(network: LiteNetwork): PersonModel {
  return {
    async find(picture, window) {
      const stepX = window.width / EDGE
      const stepY = window.height / EDGE
      // Pixels stand at whole numbers, cells cover theirs.
      const grid = { left: window.left + (stepX - 1) / 2, top: window.top + (stepY - 1) / 2, stepX, stepY }
      const [values] = await network.run(bilinear(picture, EDGE, grid, RANGE, 'edge'), SHAPE)
      if (values?.length !== EDGE ** 2) throw new Error(`${FILE} is not the network that was expected.`)
      return { window, values }
    },
  }
}
