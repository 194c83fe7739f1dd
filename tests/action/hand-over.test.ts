import { readdir, readFile, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { unpackZip } from '../../src/archive/unpack.ts'
import { validateBag } from '../../src/bag/validate.ts'
import { LOOSE_SPEC, picture, smallDelivery } from './runner/deliveries.ts'
import type { Files } from './runner/repository.ts'
import { onPullRequest, ownFolder, type Scene } from './runner/scene.ts'

let delivery: Files
let green: Scene
beforeAll(async () => {
  delivery = await smallDelivery()
  green = await onPullRequest(delivery, { 'a.txt': 'a' }, { inputs: { seal: 'true' } })
})

/** On a pull request that adds what was sent. */
function receiving(content: Buffer, change: Files = {}): Promise<Scene> {
  const sent = { 'sent/delivery.zip': content, ...change }
  return onPullRequest(delivery, sent, { inputs: { receive: 'sent/delivery.zip', strict: 'true' } })
}

const bagOf = (scene: Scene) => join(scene.workspace, scene.outputs.bag ?? '')

describe('seal', () => {
  test('a green run leaves a bag that is whole', async () => {
    expect(green).toMatchObject({
      ok: true,
      outputs: { verdict: 'pass', bag: 'portrait-report/delivery.zip' },
    })
    const folder = await ownFolder()
    const { signal } = new AbortController()
    await unpackZip(bagOf(green), join(folder, 'content'), signal)
    const bag = join(folder, 'content', 'delivery')
    expect(await validateBag(bag, signal)).toMatchObject({ valid: true, problems: [], warnings: [] })
    expect(await readdir(join(bag, 'data'))).toHaveLength(4)
  })

  test('a run in which a portrait fails leaves none', async () => {
    const change = { 'portraits/Grieve-Morag.jpg': await picture(60, 75) }
    const ran = await onPullRequest(delivery, change, { inputs: { seal: 'true' } })
    expect(ran).toMatchObject({ ok: false, outputs: { verdict: 'fail', bag: '' } })
    expect(await readdir(join(ran.workspace, 'portrait-report'))).not.toContain('delivery.zip')
  })
})

describe('receive', () => {
  test('what is whole is judged by the base, never by the spec that came along or is proposed', async () => {
    const ran = await receiving(await readFile(bagOf(green)), { 'brand.yaml': LOOSE_SPEC })
    expect(ran).toMatchObject({ ok: true, outputs: { verdict: 'pass', checked: '4', bag: '' } })
    expect(ran.summary).toContain('delivery.zip is whole and unchanged')
    expect(ran.summary).toContain("so that it can't loosen its own gate")
    expect(ran.summary).toContain('The studio checked by the same spec.')
    expect(await readdir(ran.temp)).not.toContainEqual(expect.stringMatching(/^\.portrait-gate/))
  })

  test('what is not whole fails, and is not judged', async () => {
    const folder = await ownFolder()
    const { signal } = new AbortController()
    await unpackZip(bagOf(green), join(folder, 'content'), signal)
    const bag = join(folder, 'content', 'delivery')
    await rm(join(bag, 'data', 'Grieve-Morag.jpg'))
    const files: Record<string, Buffer> = {}
    for (const entry of await readdir(bag, { recursive: true, withFileTypes: true }))
      if (entry.isFile()) {
        const path = join(entry.parentPath, entry.name)
        files[`sent${path.slice(bag.length)}`] = await readFile(path)
      }
    const ran = await onPullRequest(delivery, files, { inputs: { receive: 'sent' } })
    expect(ran).toMatchObject({
      ok: false,
      exit: 1,
      outputs: { verdict: 'fail', checked: '0', 'report-json': '' },
    })
    expect(ran.commands).toMatchObject([
      { name: 'error', data: expect.stringContaining('data/Grieve-Morag.jpg') },
    ])
  })

  test('a zip that is refused, and one outside of the workspace, end with 2', async () => {
    const ran = await receiving(Buffer.from('PK\x03\x04 cut off'))
    expect(ran).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
    const outside = { inputs: { receive: '../temp/a.zip' } }
    const other = await onPullRequest(delivery, { 'a.txt': 'a' }, outside)
    expect(other).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
    expect(other.log).toContain('leads out of the workspace')
  })
})
