import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { mkdir, mkdtemp, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { findFiles } from '../../src/delivery/walk.ts'

let base = ''

beforeEach(async () => {
  base = await mkdtemp(join(tmpdir(), 'walk-'))
})
afterEach(() => execFileSync('rm', ['-rf', base]))

async function lay(...files: string[]): Promise<void> {
  for (const file of files) {
    await mkdir(dirname(join(base, file)), { recursive: true })
    await writeFile(join(base, file), 'x')
  }
}

async function find(...paths: string[]) {
  const found = await findFiles(paths, base)
  return { ...found, files: found.files.map(({ file }) => file) }
}

describe('a folder', () => {
  test('gives its pictures, sorted, and counts what is left alone', async () => {
    await lay(
      'd/web/b.jpg',
      'd/web/A.JPG',
      'd/print/c.tiff',
      'd/print/c.xmp',
      'd/print/Thumbs.db',
      'd/.hidden.jpg',
      'd/.git/x.jpg',
      'd/__MACOSX/._b.jpg',
      'd/brand.yaml',
      'd/staff.csv',
      'd/letter.docx',
      'd/camera.CR3',
      'd/noextension',
    )
    expect(await find('d')).toEqual({
      root: join(base, 'd'),
      files: ['camera.CR3', 'print/c.tiff', 'web/A.JPG', 'web/b.jpg'],
      left: { hidden: 3, sidecars: 4, links: 0, other: 2 },
      missing: [],
      unreadable: [],
    })
  })

  test('gives what holds a photograph under a name that does not tell', async () => {
    await lay('d/portrait', 'd/a.dat', 'd/letter.docx', 'd/notes.txt', 'd/scan.txt', 'd/.portrait')
    const { files, left } = await findFiles(['d'], base, {
      holdsPhotograph: (path) => /dat|portrait|scan/.test(basename(String(path))),
    })
    expect(files.map(({ file }) => file)).toEqual(['a.dat', 'portrait', 'scan.txt'])
    expect(left).toEqual({ hidden: 1, sidecars: 1, links: 0, other: 1 })
  })

  test('looks into files whose names are no UTF-8', async () => {
    await lay('d/a.jpg')
    for (const byte of [0xfe, 0xff]) {
      const name = Buffer.concat([Buffer.from(join(base, 'd/scan')), Buffer.from([byte])])
      await writeFile(name, byte === 0xff ? 'photograph' : 'text')
    }
    const { files, left } = await findFiles(['d'], base, {
      holdsPhotograph: (path) => readFileSync(path, 'utf8') === 'photograph',
    })
    expect(files.map(({ file }) => file)).toEqual(['a.jpg', 'scan\ufffd'])
    expect(left).toMatchObject({ other: 0 })
  })

  test('gives absolute paths', async () => {
    await lay('d/a.jpg')
    expect((await findFiles(['d'], base)).files).toEqual([{ path: join(base, 'd/a.jpg'), file: 'a.jpg' }])
  })

  test('may be given with a slash, dots, or as an absolute path', async () => {
    await lay('d/a.jpg')
    for (const path of ['d/', './d', 'd/../d', join(base, 'd')]) {
      expect(await find(path)).toMatchObject({ root: join(base, 'd'), files: ['a.jpg'] })
    }
  })

  test('that can not be listed is told', async () => {
    await lay('d/a.jpg')
    // Folders so deep that the system refuses their path (PATH_MAX, 4096 on Linux): even root can't list them.
    const name = 'n'.repeat(255)
    let deep = join(base, 'd')
    while (deep.length < 3700) deep = join(deep, name)
    await mkdir(deep, { recursive: true })
    execFileSync('sh', ['-c', 'cd "$1" && mkdir -p "$2/$2"', 'sh', deep, name])
    const found = await findFiles(['d'], base)
    expect(found.unreadable).toHaveLength(1)
    expect(found.files).toHaveLength(1)
  })
})

describe('the root', () => {
  test('of several folders is the nearest that holds them', async () => {
    await lay('d/web/a.jpg', 'd/print/b.jpg', 'e/x.jpg')
    expect(await find('d/web', 'd/print')).toMatchObject({
      root: join(base, 'd'),
      files: ['print/b.jpg', 'web/a.jpg'],
    })
  })

  test('of folders that begin alike is not cut within a name', async () => {
    await lay('d/web-1/a.jpg', 'd/web-2/b.jpg')
    expect((await find('d/web-1', 'd/web-2')).root).toBe(join(base, 'd'))
  })

  test('of files inside the working folder is that folder', async () => {
    await lay('d/web/a.jpg', 'd/web/b.docx')
    expect(await find('d/web/a.jpg', 'd/web/b.docx')).toMatchObject({
      root: base,
      files: ['d/web/a.jpg', 'd/web/b.docx'],
    })
  })

  test('of files elsewhere is the nearest folder that holds them', async () => {
    await lay('d/web/a.jpg', 'd/print/b.jpg', 'e/x')
    const files = [join(base, 'd/web/a.jpg'), join(base, 'd/print/b.jpg')]
    expect(await findFiles(files, join(base, 'e'))).toMatchObject({ root: join(base, 'd') })
  })

  test('of nothing is the working folder', async () => {
    expect(await find()).toMatchObject({ root: base, files: [] })
    expect(await find('gone', 'gone.jpg/x')).toMatchObject({ root: base, missing: ['gone', 'gone.jpg/x'] })
  })
})

test('what is given twice is found once', async () => {
  await lay('d/web/a.jpg', 'd/web/a.xmp')
  const found = await find('d', 'd/web', 'd/web/a.jpg', 'd')
  expect(found).toMatchObject({ files: ['web/a.jpg'], left: { sidecars: 1 } })
})

describe('links', () => {
  test('to files inside the root are followed, others that have the name of a picture are astray', async () => {
    await lay('d/a.jpg', 'outside.jpg')
    await symlink('a.jpg', join(base, 'd/again.jpg'))
    await symlink('../outside.jpg', join(base, 'd/out.jpg'))
    await symlink('nowhere.jpg', join(base, 'd/broken.jpg'))
    await symlink('.', join(base, 'd/folder.jpg'))
    await symlink('../outside.jpg', join(base, 'd/note'))
    const { files, left } = await findFiles(['d'], base)
    expect(files.map(({ file, astray }) => [file, astray])).toEqual([
      ['a.jpg', undefined],
      ['again.jpg', undefined],
      ['broken.jpg', 'to nothing'],
      ['folder.jpg', 'to a folder'],
      ['out.jpg', 'out of the delivery'],
    ])
    expect(left.links).toBe(1)
  })

  test('to folders are not followed, so that loops end', async () => {
    await lay('d/web/a.jpg', 'outside/b.jpg')
    await symlink('..', join(base, 'd/web/up'))
    await symlink('../../outside', join(base, 'd/web/out'))
    expect(await find('d')).toMatchObject({ files: ['web/a.jpg'], left: { links: 2 } })
  })

  test('given by name are not followed out of the root either', async () => {
    await lay('work/d/a.jpg', 'outside.jpg', 'outside/b.jpg')
    const cwd = join(base, 'work')
    await symlink('../../outside.jpg', join(cwd, 'd/out.jpg'))
    await symlink('../../outside', join(cwd, 'd/folder'))
    const found = await findFiles(['d/a.jpg', 'd/out.jpg', 'd/folder/b.jpg'], cwd)
    expect(found.files.map(({ file, astray }) => [file, astray])).toEqual([
      ['d/a.jpg', undefined],
      ['d/folder/b.jpg', 'out of the delivery'],
      ['d/out.jpg', 'out of the delivery'],
    ])
  })

  test('may be the folder given, or lead to the working folder', async () => {
    await lay('real/d/a.jpg')
    await symlink('real', join(base, 'link'))
    expect(await find('link/d')).toMatchObject({ root: join(base, 'link/d'), files: ['a.jpg'] })
    expect((await findFiles(['d/a.jpg'], join(base, 'link'))).files).toHaveLength(1)
  })
})

test('names that are not UTF-8 are found and can be told apart as such', async () => {
  await lay('d/a.jpg')
  await writeFile(
    Buffer.concat([Buffer.from(`${base}/d/Zo`), Buffer.from([0xeb]), Buffer.from('.jpg')]),
    'x',
  ).catch(() => undefined)
  const { files } = await find('d')
  // File systems that store text only (APFS, NTFS) refuse such a name; then there is nothing to find.
  expect(process.platform === 'linux' ? files : ['Zo\ufffd.jpg', 'a.jpg']).toEqual(['Zo\ufffd.jpg', 'a.jpg'])
})

test('a pipe with the name of a picture is left to the measuring, and nothing waits for it', async () => {
  await lay('d/a.jpg')
  execFileSync('mkfifo', [join(base, 'd/pipe.jpg')])
  expect((await find('d', 'd/pipe.jpg')).files).toEqual(['a.jpg', 'pipe.jpg'])
})

test('the search stops when it is told to', async () => {
  await lay('d/a.jpg')
  await expect(findFiles(['d'], base, { signal: AbortSignal.abort(new Error('stopped')) })).rejects.toThrow(
    'stopped',
  )
})
