import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { chmod, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { Ajv } from 'ajv'
import { beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { run } from '../../src/commands/run.ts'
import { Receipt } from '../../src/hand-over/receipt.ts'
import { picture, SPEC } from '../action/runner/deliveries.ts'
import { zipBytes, zipOf } from '../archive/zip-bytes.ts'
import { recordingHost } from '../commands/host.ts'
import { debianTool } from '../outside/debian.ts'

const STUDIO = `${SPEC.replace('{family}-', '{deliverable}/{family}-')}deliverables:
  print: {}
  web: {}
variants: all
`
/** The client's own: no exceptions, and another size. */
const CLIENT = STUDIO.replace(/^waivers:.*\n/m, '').replace('width: 80', 'width: 81')

let folder: string
const put = async (files: Readonly<Record<string, string | Buffer>>) => {
  for (const [name, content] of Object.entries(files)) {
    await mkdir(dirname(join(folder, name)), { recursive: true })
    await writeFile(join(folder, name), content)
  }
}
// 2026-11-25, 09:46:40 UTC.
const env = { SOURCE_DATE_EPOCH: '1795600000' }
async function command(...args: readonly string[]) {
  const { host, stdout, stderr } = recordingHost(folder, { env })
  const exit = await run([args[0] ?? '', '--no-cache', ...args.slice(1)], host)
  return { exit, stdout: stdout(), stderr: stderr(), said: (stdout() + stderr()).replaceAll(/\s+/g, ' ') }
}
// Compiling the schema takes longer than all else.
const isReceipt = new Ajv().compile<Receipt>(Receipt)
const received = async (...args: readonly string[]) => {
  const { stdout, ...rest } = await command('receive', '--format', 'json', ...args)
  const receipt: unknown = JSON.parse(stdout)
  if (!isReceipt(receipt)) throw new Error('The receipt does not fit its schema.')
  return { ...rest, receipt }
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'sealed '))
  await put({
    'brand.yaml': STUDIO,
    'client/brand.yaml': CLIENT,
    'client/staff.csv': 'family,given\nAdeyemi,Folasade\nLund,Bjørn\n',
    'staff.csv': 'family,given,practice\nAdeyemi,Folasade,Mill Street\nLund,Bjørn,Mill Street\n',
    'waivers.yaml':
      '- rule: pixel-size\n  person: Adeyemi Folasade\n  reason: The large file was lost.\n  approved-by: Mika Oduya\n  until: 2099-12-31\n',
    'delivery/print/Adeyemi-Folasade.jpg': await picture(),
    'delivery/web/Adeyemi-Folasade.jpg': await picture(80, 100, 90),
    'delivery/print/Lund-Bjørn.jpg': await picture(80, 100, 80),
    'delivery/web/Lund-Bjørn.jpg': await picture(80, 100, 70),
    'delivery/notes.txt': 'See you on Monday.\n',
  })
  const { exit, said } = await command(
    'seal',
    'delivery',
    '--output',
    'osprey.zip',
    '--organization',
    'Studio Kettle',
  )
  expect(said).toBe(
    '4 portraits: 4 pass, 0 fail, 0 unsure; 0 warnings. Not checked and not packed: 1 document or sidecar. Sealed: osprey.zip ',
  )
  expect(exit).toBe(0)
})

describe('seal', () => {
  test('makes the same bytes again, and a folder with the same files', async () => {
    await command('seal', 'delivery', '--output', 'again/osprey.zip')
    expect((await command('seal', 'delivery', '--output', 'nowhere/osprey.zip')).exit).toBe(2)
    await mkdir(join(folder, 'again'))
    await command('seal', 'delivery', '--output', 'again/osprey.zip', '--organization', 'Studio Kettle')
    expect(await readFile(join(folder, 'again/osprey.zip'))).toEqual(
      await readFile(join(folder, 'osprey.zip')),
    )
    const unzip = debianTool('unzip', 'unzip')
    if (unzip) execFileSync(unzip, ['-tqq', join(folder, 'osprey.zip')])
    await command('seal', 'delivery', '--output', 'bag', '--organization', 'Studio Kettle')
    // GNU coreutils read manifests too (RFC 8493, 2.1.3, has the form of theirs).
    for (const name of ['sha256', 'sha512'])
      execFileSync(
        `${name}sum`,
        ['--check', '--strict', '--quiet', `manifest-${name}.txt`, `tagmanifest-${name}.txt`],
        {
          cwd: join(folder, 'bag'),
        },
      )
    expect(await readFile(join(folder, 'bag/bag-info.txt'), 'utf8')).toBe(
      [
        'Source-Organization: Studio Kettle',
        'External-Description: 4 staff portraits of 2 people for Osprey Lane',
        '  Veterinary Group, checked by version 1 of its brand spec',
        'Bagging-Date: 2026-11-25',
        'Bag-Software-Agent: portrait-gate 0.1.0',
        `Payload-Oxum: ${await oxum()}`,
        '',
      ].join('\n'),
    )
  })

  test('tells neither folders of the machine nor what the spec keeps in the house', async () => {
    const bag = join(folder, 'bag/portrait-gate')
    expect(await readFile(join(bag, 'people.csv'), 'utf8')).toBe(
      '"family","given"\r\n"Adeyemi","Folasade"\r\n"Lund","Bjørn"\r\n',
    )
    const files = (await readdir(bag, { recursive: true })).filter((name) => /\.\w+$/.test(name))
    expect(files.sort()).toEqual([
      'people.csv',
      'report.html',
      'report.json',
      'spec/1-brand.yaml',
      'waivers.yaml',
    ])
    for (const name of files) expect(await readFile(join(bag, name), 'utf8'), name).not.toContain(folder)
  })

  test('refuses what fails, and packs it when asked to', async () => {
    await put({ 'client/delivery/print/Adeyemi-Folasade.jpg': await picture() })
    const args = ['seal', 'client/delivery', '--spec', 'client/brand.yaml', '--output', 'failing.zip']
    const { exit, stderr } = await command(...args)
    expect(exit).toBe(1)
    expect(stderr).toContain('Nothing was sealed, since the delivery does not pass.')
    expect(await readdir(folder)).not.toContain('failing.zip')
    expect((await command(...args, '--with-findings')).exit).toBe(0)
    expect((await command(...args, '--with-findings')).stderr).toContain('failing.zip is there already')
  })
})

describe('receive', () => {
  test('a sealed delivery: whole, unchanged, judged by the spec at hand, kept, and signed off', async () => {
    const { exit, said } = await command(
      ...['receive', 'osprey.zip', '--output', 'kept', '--sign-off', 'signed.json', '--by', 'Ingrid Vale'],
    )
    expect(said).toContain('osprey.zip is whole and unchanged, packed 2026-11-25 by Studio Kettle.')
    expect(said).toContain("It is not signed: who packed it can't be known.")
    expect(said).toContain('The studio checked by the same spec.')
    expect(exit).toBe(0)
    expect(await readFile(join(folder, 'kept/data/web/Lund-Bjørn.jpg'))).toEqual(
      await readFile(join(folder, 'delivery/web/Lund-Bjørn.jpg')),
    )
    const list = await readFile(join(folder, 'kept/tagmanifest-sha512.txt'))
    const sha512 = createHash('sha512').update(list).digest('hex')
    expect(JSON.parse(await readFile(join(folder, 'signed.json'), 'utf8'))).toMatchObject({
      by: 'Ingrid Vale',
      bag: { sha512, signedBy: null },
      judged: { verdict: 'pass', delivery: { files: 4 } },
    })
    expect((await readdir(folder)).filter((name) => name.startsWith('.'))).toEqual([])
  })

  test('judges by the spec of the client, says where the two differ, and asks about exceptions', async () => {
    const { exit, receipt } = await received('osprey.zip', '--spec', 'client/brand.yaml')
    expect(exit).toBe(1)
    expect(receipt.bag).toMatchObject({ valid: true, complete: true, problems: [], warnings: [] })
    expect(receipt.report?.totals).toMatchObject({ files: 4, fail: 4 })
    expect(receipt.differences).toEqual([
      { setting: 'pixel-size', ours: '{ height: 100, width: 81 }', theirs: expect.any(String) },
    ])
    expect(receipt.questions.map(({ files, approvedBy }) => [files, approvedBy])).toEqual([
      [['print/Adeyemi-Folasade.jpg'], 'Mika Oduya'],
      [['web/Adeyemi-Folasade.jpg'], 'Mika Oduya'],
    ])
    const { stderr, exit: refused } = await command(
      ...[
        'receive',
        'osprey.zip',
        '--spec',
        'client/brand.yaml',
        '--sign-off',
        'no.json',
        '--by',
        'Ingrid Vale',
      ],
    )
    expect([refused, stderr]).toEqual([2, expect.stringContaining('It was not signed off. 4 portraits fail')])
  })

  test('a plain zip or folder is told to be one, and judged', async () => {
    await put({ 'plain.zip': zipOf(join(folder, 'delivery')) })
    for (const sent of ['plain.zip', 'delivery']) {
      const { exit, said } = await command('receive', sent)
      expect(said).toContain(
        `${sent} is not sealed: whether a file is missing, or was changed on the way, can't be known.`,
      )
      expect(said).toContain('4 portraits: 4 pass')
      expect(exit).toBe(0)
    }
  })

  test('nothing is judged without a spec of the client', async () => {
    await mkdir(join(folder, 'empty'), { recursive: true })
    const { host, stdout, stderr } = recordingHost(join(folder, 'empty'))
    expect(await run(['receive', '../osprey.zip'], host)).toBe(2)
    expect(stdout()).toContain('osprey.zip is whole and unchanged')
    expect(stderr()).toContain('The portraits were not judged, since there is no spec of your own')
  })

  test('a file that is swapped, added or missing is told, and nothing is kept or judged', async () => {
    const bag = join(folder, 'spoiled')
    const { exit } = await command('seal', 'delivery', '--output', 'spoiled')
    expect(exit).toBe(0)
    await writeFile(join(bag, 'data/print/Lund-Bjørn.jpg'), await picture(80, 100, 60))
    await rm(join(bag, 'data/web/Lund-Bjørn.jpg'))
    await put({ 'spoiled/data/web/Osei-Kofi.jpg': await picture() })
    const { exit: refused, receipt } = await received('spoiled')
    expect(refused).toBe(1)
    expect(receipt.report).toBeNull()
    expect(receipt.bag?.problems.map(({ fault, file }) => `${fault} ${file}`).sort()).toEqual([
      'changed data/print/Lund-Bjørn.jpg',
      'missing data/web/Lund-Bjørn.jpg',
      'unlisted data/web/Osei-Kofi.jpg',
    ])
    await put({ 'spoiled.zip': zipOf(folder, ['spoiled']) })
    const zipped = await command('receive', 'spoiled.zip', '--output', 'not-kept')
    expect(zipped.exit).toBe(1)
    expect(zipped.said).toContain(
      'spoiled.zip, packed 2026-11-25, is not accepted. It is not whole, or was changed after it was packed.',
    )
    expect(await readdir(folder)).not.toContain('not-kept')
  })

  test('a sign-off that can not be written is told, and one that is names its file', async () => {
    const signing = ['receive', 'osprey.zip', '--by', 'Ingrid Vale', '--sign-off'] as const
    expect(await command(...signing, 'no/such/folder.json')).toMatchObject({
      exit: 2,
      stderr: expect.stringMatching(/^no\/such\/folder\.json could not be written \(ENOENT\)/),
    })
    expect((await command(...signing, 'approved.json')).said).toContain('Approved: approved.json. Send it')
  })

  test('what has the name of a zip and is none is no portrait', async () => {
    await put({ 'page.zip': '<html>Not found</html>', 'none.zip': '' })
    for (const [name, ...more] of [['receive'], ['check', '--spec', 'brand.yaml'], ['derive']] as const)
      for (const file of ['page.zip', 'none.zip'])
        expect(await command(name, file, ...more)).toMatchObject({
          ...{ exit: 2, stdout: '' },
          stderr: expect.stringMatching(new RegExp(`^${file} is n.* cut off on the way\\b`)),
        })
  })

  test('a zip without portraits is told by its name', async () => {
    await put({ 'notes.zip': zipBytes([{ name: 'notes.txt', data: Buffer.from('Soon.') }]) })
    for (const [name, ...more] of [['receive'], ['check', '--spec', 'brand.yaml'], ['derive']] as const)
      expect(await command(name, 'notes.zip', ...more)).toMatchObject({
        exit: 2,
        said: expect.stringContaining('No portraits were found in notes.zip.'),
      })
  })

  test('what lies beside the bag in a zip is told', async () => {
    await put({ 'beside.zip': zipOf(folder, ['bag', 'staff.csv']) })
    const { receipt } = await received('beside.zip')
    expect(receipt.bag).toMatchObject({
      valid: false,
      problems: [{ fault: 'unlisted', file: '../staff.csv' }],
    })
  })
})

describe('a signature', () => {
  beforeEach(async () => {
    await rm(join(folder, 'signed.zip'), { force: true })
  })

  test('is by a known key, by an unknown one, or not over this bag', async () => {
    execFileSync('ssh-keygen', ['-q', '-t', 'ed25519', '-N', '', '-C', '', '-f', join(folder, 'key')])
    await chmod(join(folder, 'key'), 0o600)
    const key = await readFile(join(folder, 'key.pub'), 'utf8')
    await put({ signers: `studio@example.com ${key}`, others: `other@example.com namespaces="git" ${key}` })
    expect((await command('seal', 'delivery', '--output', 'signed.zip', '--sign', 'key')).exit).toBe(0)
    const known = await received('signed.zip', '--signers', 'signers')
    expect([known.exit, known.receipt.bag?.signature]).toMatchObject([
      0,
      { state: 'known', signer: 'studio@example.com' },
    ])
    const unknown = await received('signed.zip')
    expect([unknown.exit, unknown.receipt.bag?.signature]).toMatchObject([
      0,
      { state: 'unknown-key', signer: null },
    ])
    expect((await received('signed.zip', '--signers', 'others')).exit).toBe(1)
    // As PowerShell writes it.
    await put({ 'wide-signers': Buffer.from(`\uFEFFstudio@example.com ${key}`, 'utf16le') })
    expect((await received('signed.zip', '--signers', 'wide-signers')).exit).toBe(0)
    await put({ 'bare-key': key, 'no-key': 'studio@example.com\n', blank: '# none yet\n' })
    for (const [list, problem] of [
      [
        'bare-key',
        ', line 1, begins with the key and does not say whose it is; each line is a name and the key',
      ],
      ['no-key', ', line 1, holds no key;'],
      ['blank', ' is empty;'],
      ['absent', ' is not there. Check its path.'],
    ] as const)
      await expect(command('receive', 'signed.zip', '--signers', list)).resolves.toMatchObject({
        exit: 2,
        said: expect.stringContaining(`The list of keys ${list}${problem}`),
      })
    expect((await received('osprey.zip', '--signers', 'signers')).exit).toBe(1)
    await command('receive', 'signed.zip', '--output', 'signed')
    const signature = await readFile(join(folder, 'signed/tagmanifest-sha512.txt.sig'))
    await put({ 'bag/tagmanifest-sha512.txt.sig': signature })
    const wrong = await received('bag')
    expect([wrong.exit, wrong.receipt.bag?.signature?.state, wrong.receipt.bag?.valid]).toEqual([
      1,
      'wrong',
      true,
    ])
  })

  test('by a key that is not there is refused, and nothing is left', async () => {
    const { exit, stderr } = await command('seal', 'delivery', '--output', 'signed.zip', '--sign', 'no-key')
    expect([exit, stderr]).toEqual([2, expect.stringContaining('ssh-keygen could not sign with')])
    expect((await readdir(folder)).filter((name) => /^\.|^signed.zip/.test(name))).toEqual([])
  })
})

describe('check', () => {
  test('reads a zip as a folder, of a bag what was packed', async () => {
    const json = async (path: string) => JSON.parse((await command('check', path, '--format', 'json')).stdout)
    const [plain, sealed, open] = [await json('plain.zip'), await json('osprey.zip'), await json('delivery')]
    expect(plain).toEqual(open)
    expect(sealed).toEqual({ ...open, left: { ...open.left, sidecars: 0 } })
    expect((await command('check', 'plain.zip', 'delivery')).stderr).toContain(
      'a zip, which is checked by itself',
    )
  })
})

async function oxum(): Promise<string> {
  const names = await readdir(join(folder, 'delivery'), { recursive: true })
  const sizes = await Promise.all(
    names
      .filter((name) => name.endsWith('.jpg'))
      .map(async (name) => (await readFile(join(folder, 'delivery', name))).length),
  )
  return `${sizes.reduce((sum, size) => sum + size, 0)}.${sizes.length}`
}
