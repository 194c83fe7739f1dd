import { bilinear, gridOver } from '../../imaging/bilinear.ts'
import type { RgbPicture } from '../../imaging/rgb-picture.ts'
import { type LiteNetwork, loadLiteNetwork } from '../networks/lite-network.ts'
import { NETWORKS } from '../networks/networks.ts'
import { EDGE, type PersonMask, type Window } from './person-mask.ts'

export interface PersonModel {
  /** Looks for the person in a part of the picture; what lies outside is taken for as the nearest edge is. */
  find(picture: RgbPicture, window: Window): Promise<PersonMask>
}

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
  loading ??= loadLiteNetwork(NETWORKS.person).then(modelOf)
  return loading
}

function modelOf(network: LiteNetwork): PersonModel {
  return {
    async find(picture, window) {
      const [values] = await network.run(
        bilinear(picture, EDGE, gridOver(window, EDGE), RANGE, 'edge'),
        SHAPE,
      )
      if (values?.length !== EDGE ** 2)
        throw new Error(`${NETWORKS.person.file} is not the network that was expected.`)
      return { window, values }
    },
  }
}
