import { execFile } from 'node:child_process'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { promisify } from 'node:util'
import { expect, test } from 'vitest'
import { loadLiteNetwork } from '../../../src/measure/networks/lite-network.ts'
import { built } from '../../pool/built.ts'

const PERSON = { file: '@mediapipe/selfie_segmentation/selfie_segmentation.tflite' }
const SHAPE = [1, 256, 256, 3]
const gray = new Float32Array(256 * 256 * 3).fill(0.5)

// 256 x 256 values from 0 to 1: the model card of MediaPipe Selfie Segmentation, the general model (from memory).
test('a network answers in the shape that it is published with, the same each time', async () => {
  const network = await loadLiteNetwork(PERSON)
  const [first] = await network.run(gray, SHAPE)
  expect(first).toHaveLength(256 * 256)
  expect(first?.every((value) => value >= 0 && value <= 1)).toBe(true)
  expect((await network.run(gray, SHAPE))[0]).toEqual(first)
})

// A process of its own, since the library is started once in each.
test('it asks no network, prints nothing, leaves nothing of a browser behind, and lets the process end', async () => {
  const code = pathToFileURL(join(await built(), 'src/measure/networks/lite-network.js')).href
  const script = `
    const before = Object.getOwnPropertyNames(globalThis).join()
    const fetch = globalThis.fetch
    globalThis.fetch = () => { throw new Error('fetched') }
    const { loadLiteNetwork } = await import('${code}')
    const network = await loadLiteNetwork(${JSON.stringify(PERSON)})
    const [answer] = await network.run(new Float32Array(256 * 256 * 3), ${JSON.stringify(SHAPE)})
    const left = Object.getOwnPropertyNames(globalThis).filter((name) => !before.split(',').includes(name))
    console.log(JSON.stringify([answer.length, left]))`
  const { stdout, stderr } = await promisify(execFile)(process.execPath, [
    '--input-type=module',
    '--eval',
    script,
  ])
  expect(JSON.parse(stdout)).toEqual([256 * 256, []])
  expect(stderr).toBe('')
})

test('says which file or part is missing', async () => {
  const file = '@mediapipe/selfie_segmentation/no-such.tflite'
  await expect(loadLiteNetwork({ file })).rejects.toThrow('no-such.tflite')
  const packed = {
    file: '@mediapipe/face_mesh/face_mesh_solution_packed_assets.data',
    part: {
      name: 'no-part.tflite',
      script: '@mediapipe/face_mesh/face_mesh_solution_packed_assets_loader.js',
    },
  }
  await expect(loadLiteNetwork(packed)).rejects.toThrow('no part named no-part.tflite')
})
