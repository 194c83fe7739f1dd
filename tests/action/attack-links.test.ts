import { execFileSync } from 'node:child_process'
import { rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import { picture, smallDelivery } from './runner/deliveries.ts'
import { type Files, Repository } from './runner/repository.ts'
import { ONLY_CHANGED, onPullRequest, onRequestTo, ownFolder } from './runner/scene.ts'

let delivery: Files
let bad: Buffer
let good: Buffer
beforeAll(async () => {
  delivery = await smallDelivery()
  bad = await picture(60, 75)
  good = await picture(80, 100, 77)
})

const setting = { inputs: ONLY_CHANGED }
const GRIEVE = 'portraits/Grieve-Morag.jpg'
const FAROUK = 'portraits/Farouk-Layla.jpg'

/** The delivery under another folder. */
function moved(files: Files, folder: string): Files {
  return Object.fromEntries(
    Object.entries(files).map(([path, content]) => [path.replace(/^portraits\//, `${folder}/`), content]),
  )
}

describe('only-changed with links', () => {
  test('a delivery that is made a link is judged through it', async () => {
    const change = { ...moved(delivery, 'p2'), 'p2/Grieve-Morag.jpg': bad, portraits: { link: 'p2' } }
    const ran = await onPullRequest(delivery, change, setting)
    expect(ran).toMatchObject({ exit: 1, outputs: { verdict: 'fail', checked: '4', failed: '1' } })
  })

  test('of a delivery that has always been a link, what changes behind it is judged', async () => {
    const base = { ...moved(delivery, 'p2'), portraits: { link: 'p2' } }
    const ran = await onPullRequest(base, { 'p2/Grieve-Morag.jpg': bad }, setting)
    expect(ran).toMatchObject({ exit: 1, outputs: { verdict: 'fail', checked: '1', failed: '1' } })
  })

  test('a link on the way that leads elsewhere than before is a change', async () => {
    const worse = { ...moved(delivery, 'p3'), 'p3/Grieve-Morag.jpg': bad }
    const base = {
      ...moved(delivery, 'p2'),
      ...worse,
      portraits: { link: 'way/in' },
      'way/in': { link: '../p2' },
    }
    const ran = await onPullRequest(base, { 'way/in': { link: '../p3' } }, setting)
    expect(ran).toMatchObject({ exit: 1, outputs: { checked: '4', failed: '1' } })
  })

  test('a picture that is a link is judged when what it leads to changes', async () => {
    const spec = String(delivery['brand.yaml'])
    const linked = { ...delivery, 'brand.yaml': spec, [GRIEVE]: { link: 'kept/original.jpg' } }
    const base = { ...linked, 'portraits/kept/original.jpg': good }
    const ran = await onPullRequest(base, { 'portraits/kept/original.jpg': bad }, setting)
    expect(ran.exit).toBe(1)
    expect(ran.outputs).toMatchObject({ checked: '2', failed: '2' })
  })

  test('a link whose names go up behind another link is not taken at its word', async () => {
    // By its words the link leads to good.jpg; by the way, to where the other link leads.
    const base = {
      ...delivery,
      'portraits/good.jpg': good,
      'portraits/far/deep/x': 'x',
      'portraits/far/good.jpg': bad,
      'portraits/l': { link: 'near' },
      'portraits/near/x': 'x',
      [GRIEVE]: { link: 'l/../good.jpg' },
    }
    const ran = await onPullRequest(base, { 'portraits/l': { link: 'far/deep' } }, setting)
    const told = ran.commands.map(({ properties }) => properties.file)
    expect(ran.exit).toBe(1)
    expect(told).toContain(GRIEVE)
  })

  test('a link to a name that is no UTF-8, of which git tells only part', async () => {
    const raw = (folder: string, byte: number) =>
      Buffer.concat([Buffer.from(`${folder}/portraits/.kept/a`), Buffer.from([byte])])
    const repository = await Repository.create(await ownFolder(), {
      ...delivery,
      'portraits/.kept/a\ufffd': good,
    })
    const { folder } = repository
    writeFileSync(raw(folder, 0xfe), good)
    writeFileSync(raw(folder, 0xff), good)
    rmSync(join(folder, GRIEVE))
    symlinkSync(Buffer.concat([Buffer.from('.kept/a'), Buffer.from([0xfe])]), join(folder, GRIEVE))
    await repository.commit({})
    expect(await onRequestTo(repository, { 'README.md': 'x' })).toMatchObject({ exit: 0 })
    writeFileSync(raw(folder, 0xfe), bad)
    const ran = await onRequestTo(repository, {}, setting)
    expect(ran).toMatchObject({ exit: 1, outputs: { checked: '1', failed: '1' } })
  })

  test('links named like pictures that lead out, to nothing or to a folder are failed rows', async () => {
    for (const link of ['../elsewhere.jpg', 'nowhere.jpg', '/etc/hostname', '.', 'Grieve-Morag.jpg']) {
      const ran = await onPullRequest({ ...delivery, 'elsewhere.jpg': good }, { [GRIEVE]: { link } }, setting)
      expect(ran, link).toMatchObject({ exit: 1, outputs: { checked: '1', failed: '1' } })
      expect(ran.commands[0]?.properties.file, link).toBe(GRIEVE)
    }
  })
})

describe('only-changed with what says how files are checked out', () => {
  test('changed attributes make every file below them a changed one', async () => {
    const ran = await onPullRequest(
      delivery,
      { 'portraits/.gitattributes': '*.jpg text eol=crlf\n' },
      setting,
    )
    expect(ran.outputs.checked).toBe('4')
  })

  test('what a step wrote, and git does not know, is judged', async () => {
    const { writeFile } = await import('node:fs/promises')
    const prepare = async (workspace: string) => {
      await writeFile(`${workspace}/${GRIEVE}`, bad)
      await writeFile(`${workspace}/portraits/Unheard-Of.jpg`, bad)
    }
    const ran = await onPullRequest(delivery, { 'README.md': 'x' }, { ...setting, prepare })
    expect(ran).toMatchObject({ exit: 1, outputs: { checked: '2', failed: '2' } })
  })
})

describe('only-changed where a step has told git not to look', () => {
  test.each(['--assume-unchanged', '--skip-worktree'])('%s: what it wrote over is judged', async (option) => {
    const prepare = async (workspace: string) => {
      execFileSync('git', ['-C', workspace, 'update-index', option, GRIEVE])
      await writeFile(join(workspace, GRIEVE), bad)
    }
    const ran = await onPullRequest(delivery, { 'notes.md': 'A note.' }, { ...setting, prepare })
    expect(ran).toMatchObject({ exit: 1, outputs: { verdict: 'fail', checked: '1', failed: '1' } })
  })
})

describe('a delivery in a submodule', () => {
  const repositories = async () => {
    const {
      'brand.yaml': spec = '',
      'staff.csv': staff = '',
      'waivers.yaml': waivers = '',
      ...pictures
    } = delivery
    const inner = await Repository.create(await ownFolder(), pictures)
    const outer = await Repository.create(await ownFolder(), {
      'brand.yaml': spec,
      'staff.csv': staff,
      'waivers.yaml': waivers,
    })
    await outer.addSubmodule(inner, 'delivery')
    await outer.commit({})
    return { inner, outer }
  }
  const within = { inputs: { ...ONLY_CHANGED, paths: 'delivery/portraits' }, checkout: { submodules: true } }

  test('that moves to another commit is judged', async () => {
    const { inner, outer } = await repositories()
    await inner.commit({ [GRIEVE]: bad })
    await outer.git('-C', 'delivery', 'fetch', '-q', `file://${inner.folder}`, 'main')
    await outer.git('checkout', '-q', '-b', 'moved')
    await outer.git('-C', 'delivery', 'checkout', '-q', 'FETCH_HEAD')
    const head = await outer.commit({})
    await outer.git('checkout', '-q', 'main')
    const base = await outer.git('rev-parse', 'main')
    const { judged } = await import('./runner/in-process.ts')
    const [workspace, temp] = [await ownFolder(), await ownFolder()]
    await outer.checkout(workspace, head, '0', { submodules: true })
    const event = { pull_request: { base: { sha: base } } }
    const job = { workspace, temp, eventName: 'pull_request', event, sha: head }
    const ran = await judged(within.inputs, job)
    expect(ran).toMatchObject({ exit: 1, outputs: { verdict: 'fail', checked: '4', failed: '1' } })
  })

  test('that stays where it was is as it was, unless a step changed it', async () => {
    const { outer } = await repositories()
    expect(await onRequestTo(outer, { 'README.md': 'x' }, within)).toMatchObject({
      outputs: { verdict: 'skip' },
    })
    const { writeFile } = await import('node:fs/promises')
    const prepare = (workspace: string) => writeFile(`${workspace}/delivery/${GRIEVE}`, bad)
    const ran = await onRequestTo(outer, { 'README.md': 'x' }, { ...within, prepare })
    expect(ran).toMatchObject({ exit: 1, outputs: { checked: '1', failed: '1' } })
  })

  test('that is not checked out is an error', async () => {
    const { outer } = await repositories()
    const inputs = { paths: '.' }
    const ran = await onRequestTo(outer, { [GRIEVE]: good }, { inputs })
    expect(ran).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
    expect(ran.commands[0]?.data).toContain('The submodule delivery is not checked out')
  })
})

describe('portraits that are not where they are judged', () => {
  test('a folder beside the delivery whose name differs in capitals or accents only', async () => {
    for (const twin of ['PORTRAITS', 'portraitſ']) {
      const ran = await onPullRequest(delivery, { [`${twin}/Grieve-Morag.jpg`]: bad }, setting)
      expect(ran, twin).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
      expect(ran.commands[0]?.data).toContain(`${twin}/Grieve-Morag.jpg is not in portraits`)
    }
  })

  test('a portrait taken from a hidden folder that is given by itself', async () => {
    const { [GRIEVE]: grieve = '', [FAROUK]: farouk = '', ...others } = delivery
    const base = {
      ...others,
      'portraits/.more/Grieve-Morag.jpg': grieve,
      'portraits/.more/Farouk-Layla.jpg': farouk,
    }
    const inputs = { ...ONLY_CHANGED, paths: 'portraits\nportraits/.more' }
    const ran = await onPullRequest(base, { 'portraits/.more/Grieve-Morag.jpg': null }, { inputs })
    expect(ran).toMatchObject({ exit: 1, outputs: { verdict: 'fail' } })
    expect(ran.summary).toContain('Grieve')
  })

  test('a portrait that a step took away', async () => {
    const { rm } = await import('node:fs/promises')
    const prepare = (workspace: string) => rm(`${workspace}/${GRIEVE}`)
    const ran = await onPullRequest(delivery, {}, { prepare })
    expect(ran).toMatchObject({ exit: 2 })
    expect(ran.commands[0]?.data).toContain(`The commit has ${GRIEVE}, which is not in the checkout.`)
  })

  test('a path that holds no portrait, or is mistyped', async () => {
    const base = { ...delivery, 'notes/read.me': 'x' }
    for (const paths of ['portrait', 'portraits\nnotes', 'brand.yaml\nnotes']) {
      const ran = await onPullRequest(base, { 'README.md': 'x' }, { inputs: { ...ONLY_CHANGED, paths } })
      expect(ran, paths).toMatchObject({ exit: 2, outputs: { verdict: 'error' } })
      expect(ran.commands[0]?.data, paths).toMatch(/There is nothing at portrait|notes holds no portrait/)
    }
  })
})
