import { beforeAll, describe, expect, test } from 'vitest'
import { picture, SPEC, smallDelivery } from './runner/deliveries.ts'
import type { Files } from './runner/repository.ts'
import { ONLY_CHANGED, onPullRequest, type Setting } from './runner/scene.ts'

// The small delivery, with its spec divided: the group's asks for the size, the office's names the roster.
const GROUP = SPEC.replace(/^(?:roster|waivers):.*\n/gm, '')
const OFFICE = `brand: Osprey Lane, Harbor Street
version: 1
extends: ../house/group.yaml
roster: staff.csv
waivers: waivers.yaml
`
const LOOSE = GROUP.replace(/^pixel-size.*\n/m, '')
const IN_OFFICE: Setting = { inputs: { spec: 'harbor/brand.yaml' } }

let base: Files
let small: Buffer
beforeAll(async () => {
  const {
    'brand.yaml': _,
    'staff.csv': staff = '',
    'waivers.yaml': waivers = '',
    ...rest
  } = await smallDelivery()
  small = await picture(60, 75)
  base = {
    ...rest,
    'house/group.yaml': GROUP,
    'harbor/brand.yaml': OFFICE,
    'harbor/staff.csv': staff,
    'harbor/waivers.yaml': waivers,
  }
})
const GRIEVE = 'portraits/Grieve-Morag.jpg'

describe('a spec that extends another', () => {
  test('is in force as the base has both', async () => {
    const loosened = { 'house/group.yaml': LOOSE, [GRIEVE]: small }
    const ran = await onPullRequest(base, loosened, IN_OFFICE)
    expect(ran).toMatchObject({ exit: 1, outputs: { checked: '4', failed: '1' } })
    expect(ran.summary).toContain(
      'The change touches house/group.yaml. It was judged by the version of the base',
    )
    const own = { inputs: { ...IN_OFFICE.inputs, 'spec-from-base': 'false' } }
    expect(await onPullRequest(base, loosened, own)).toMatchObject({ exit: 0 })
  })

  test('can not be loosened by a spec that the change adds, nor by one that it takes away', async () => {
    const another = {
      'harbor/brand.yaml': OFFICE.replace('group', 'loose'),
      'house/loose.yaml': LOOSE,
      'house/group.yaml': null,
      [GRIEVE]: small,
    }
    expect(await onPullRequest(base, another, IN_OFFICE)).toMatchObject({ exit: 1, outputs: { failed: '1' } })
  })

  test('that the base extends by a link, or does not have', async () => {
    const linked = { ...base, 'kept/group.yaml': GROUP, 'house/group.yaml': { link: '../kept/group.yaml' } }
    const ran = await onPullRequest(linked, { [GRIEVE]: small }, IN_OFFICE)
    expect(ran).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
    expect(ran.commands[0]?.data).toMatch(/there, house\/group\.yaml is a link/)
    const { 'house/group.yaml': _, ...without } = base
    const missing = await onPullRequest(without, { [GRIEVE]: small }, IN_OFFICE)
    expect(missing).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
    expect(missing.commands[0]?.data).toMatch(
      /brand\.yaml of the base commit \w+ is broken \(line 3: extends is/,
    )
    expect(await onPullRequest(without, { 'house/group.yaml': GROUP }, IN_OFFICE)).toMatchObject({ exit: 0 })
  })

  test.each([
    ['out of the workspace', '../../group.yaml', /leads out of the workspace/],
    ['by a link that leads out', '../house/link.yaml', /leads out of the workspace/],
    ['to what is no spec by its name', '../../../../etc/passwd', /a spec ends in \.yaml or \.yml/],
  ])('that leads %s is refused at its line', async (_, path, why) => {
    const change: Files = {
      'harbor/brand.yaml': OFFICE.replace('../house/group.yaml', path),
      'house/link.yaml': { link: '/etc/group.yaml' },
    }
    const own = { inputs: { ...IN_OFFICE.inputs, 'spec-from-base': 'false' } }
    const ran = await onPullRequest(base, change, own)
    expect(ran).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
    expect(ran.commands[0]).toMatchObject({
      properties: { file: 'harbor/brand.yaml', line: '3' },
      data: expect.stringMatching(why),
    })
  })

  test('a problem of the extended spec is annotated in its file', async () => {
    const own = { inputs: { ...IN_OFFICE.inputs, 'spec-from-base': 'false' } }
    const ran = await onPullRequest(base, { 'house/group.yaml': `${GROUP}headrom: { min: 6 }\n` }, own)
    expect(ran.commands[0]?.properties).toMatchObject({ file: 'house/group.yaml', line: '7', col: '1' })
  })

  test('that changes means that all are judged', async () => {
    const setting = { inputs: { ...IN_OFFICE.inputs, ...ONLY_CHANGED } }
    const same = await onPullRequest(base, { [GRIEVE]: await picture(80, 100, 90) }, setting)
    expect(same).toMatchObject({ exit: 0, outputs: { checked: '1' } })
    const changed = await onPullRequest(base, { 'house/group.yaml': `${GROUP}# more\n` }, setting)
    expect(changed).toMatchObject({ exit: 0, outputs: { checked: '4' } })
  })
})
