import { env, getBackend, memory } from '@tensorflow/tfjs-core'
import { expect, test } from 'vitest'
import { loadModel } from '../../../../src/measure/face/networks/graph-model.ts'

const SHAPE: [number, number, number, number] = [1, 192, 192, 3]
const gray = new Float32Array(192 * 192 * 3).fill(0.5)

test('answers in the order asked for, with the lengths that the mesh is published with', async () => {
  // Kartynnik et al. 2019: 468 points of three coordinates, and one probability of a face.
  const ordered = await loadModel('facemesh', ['Identity_2', 'Identity_1'])
  const turned = await loadModel('facemesh', ['Identity_1', 'Identity_2'])
  const [points, score] = ordered.run(gray, SHAPE)
  expect(points).toHaveLength(3 * 468)
  expect(score).toHaveLength(1)
  expect(turned.run(gray, SHAPE)).toEqual([score, points])
})

test('leaves nothing behind', async () => {
  const model = await loadModel('facemesh', ['Identity_1'])
  model.run(gray, SHAPE)
  const before = memory().numTensors
  for (let i = 0; i < 3; i++) model.run(gray, SHAPE)
  expect(memory().numTensors).toBe(before)
})

test('runs on WebAssembly with SIMD, in this thread alone', async () => {
  await loadModel('facemesh', ['Identity_1'])
  expect(getBackend()).toBe('wasm')
  expect(await env().getAsync('WASM_HAS_SIMD_SUPPORT')).toBe(true)
  expect(await env().getAsync('WASM_HAS_MULTITHREAD_SUPPORT')).toBe(false)
})

test('says which file of a model is missing', async () => {
  await expect(loadModel('no-such-model', ['Identity'])).rejects.toThrow('no-such-model.json')
})
