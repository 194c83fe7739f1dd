import { createHash } from 'node:crypto'
import { copyFile, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterEach, beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest'
import { LOG } from '../../src/session-log/session.ts'
import { tiffFile } from '../measure/file/raw/tiff-file.ts'
import { grayJpeg, SessionFolder, shown, tap } from './session-folder.ts'

let session: SessionFolder
beforeEach(async () => {
  session = await SessionFolder.make()
})
afterEach(() => session.remove())

const log = async () => {
  const text = await readFile(join(session.folder, '.portrait-gate', LOG), 'utf8')
  return text
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line))
}
/** A raw file may be taken after a JPEG that came later: that one is whole at a glance. */
const logged = (lines: number) =>
  expect.poll(async () => (await log()).length, { timeout: 600_000 }).toBe(lines)
const digestOf = async (gray: number) =>
  createHash('sha256')
    .update(await grayJpeg(gray))
    .digest('hex')
const roster = () => readFile(join(session.base, 'staff.csv'), 'utf8')

describe('frames', () => {
  it('are judged once: a copy, a raw file beside, a renamed folder and a restart change nothing', async () => {
    const [one, two] = [await grayJpeg(100), await grayJpeg(120)]
    await session.put('a/IMG_1.JPG', one)
    await session.start()
    await session.until(() => session.frames().length === 1)
    // Other content by the same name elsewhere is another frame.
    await session.put('b/IMG_1.JPG', two)
    await session.until(() => session.frames().length === 2)
    await session.put('copy/first.JPG', one)
    await session.put('a/IMG_1.DNG', tiffFile({ 254: 1, 513: two }))
    await rename(join(session.folder, 'b'), join(session.folder, 'c'))
    await session.put('last.JPG', await grayJpeg(140))
    await logged(6)
    await session.stop()
    const seen = (await log()).map(({ kind, file }) => `${kind} ${file}`).toSorted()
    expect(seen).toEqual([
      'file a/IMG_1.DNG',
      'file c/IMG_1.JPG',
      'file copy/first.JPG',
      'frame a/IMG_1.JPG',
      'frame b/IMG_1.JPG',
      'frame last.JPG',
    ])
    await session.start()
    await session.put('after.JPG', await grayJpeg(160))
    await session.until(() => session.frames().length === 4)
    await session.stop()
    expect((await log()).filter(({ kind }) => kind === 'frame')).toHaveLength(4)
  })

  it('wait until they are whole', async () => {
    const whole = await grayJpeg(90)
    await session.start()
    await session.put('slow.JPG', whole.subarray(0, whole.length - 40))
    await session.put('other.JPG', await grayJpeg(91))
    await session.until(() => session.frames().length === 1)
    expect(session.frames()[0]).toContain('other.JPG')
    await session.put('slow.JPG', whole)
    await session.until(() => session.frames().length === 2)
    expect(session.frames()[1]).toContain('slow.JPG')
  })

  it('are raw files too, by the JPEG that they embed; what else cameras write is named and left out', async () => {
    await session.start()
    await session.put('a.NEF', tiffFile({ 254: 0, 256: 6000, 257: 4000, 513: await grayJpeg(80) }, 'MM'))
    await session.put('b.DNG', tiffFile({ 254: 1, 256: 6000, 257: 4000 }))
    await session.put('c.RAF', 'FUJIFILMCCD-RAW 0201FF159502')
    await session.until(() => session.frames().length === 1 && session.printed.includes('c.RAF'))
    await session.until(() => session.printed.includes('b.DNG'))
    await session.stop()
    const [frame] = (await log()).filter(({ kind }) => kind === 'frame')
    expect(frame).toMatchObject({
      file: 'a.NEF',
      fullSize: { widthPx: 6000, heightPx: 4000 },
      measured: { widthPx: 64 },
    })
    expect(session.printed).toContain(
      'b.DNG is a raw file in which no JPEG was found; record JPEG beside raw.',
    )
    expect(session.printed).toContain(
      'c.RAF is a raw file in which no JPEG was found; record JPEG beside raw.',
    )
  })
})

describe('raw and JPEG in folders of their own', () => {
  const takenAt = async (gray: number, time: string) =>
    sharp(await grayJpeg(gray))
      .withExif({ IFD2: { DateTimeOriginal: time } })
      .jpeg()
      .toBuffer()

  it('are one frame when name and second agree, and two when a camera’s counter began anew', async () => {
    const [morning, evening] = ['2026:05:12 09:00:00', '2026:05:12 19:00:00']
    await session.start()
    await session.put('jpeg/IMG_1.JPG', await takenAt(100, morning))
    await session.until(() => session.frames().length === 1)
    await session.put('raw/IMG_1.NEF', tiffFile({ 254: 1, 513: await takenAt(101, morning) }))
    await session.put('raw/IMG_1.CR2', tiffFile({ 254: 1, 513: await takenAt(102, evening) }))
    await session.put('other/img_1.jpg', await takenAt(103, morning))
    await logged(4)
    await session.stop()
    expect((await log()).map(({ kind, file }) => `${kind} ${file}`).toSorted()).toEqual([
      'file raw/IMG_1.NEF',
      'frame jpeg/IMG_1.JPG',
      'frame other/img_1.jpg',
      'frame raw/IMG_1.CR2',
    ])
  })
})

it('a picture that was lost, as by a kill before it was made, is made when a page asks for it', async () => {
  const url = await session.start()
  await session.put('IMG_1.JPG', await grayJpeg(100))
  await session.until(() => session.frames().length === 1)
  const picture = `${url}picture/${await digestOf(100)}`
  const before = await (await fetch(picture)).arrayBuffer()
  await rm(join(session.folder, '.portrait-gate', 'previews'), { recursive: true })
  const again = await fetch(picture)
  expect(again.status).toBe(200)
  expect(Buffer.from(before).equals(Buffer.from(await again.arrayBuffer()))).toBe(true)
})

describe('the clock', () => {
  // A laptop that slept for a night, and one whose clock was wrong and is set while it runs; the system goes on with the time of the files.
  it.each([
    ['forward', 8 * 3_600_000],
    ['back', -8 * 3_600_000],
  ])('may jump %s: nothing is lost or judged twice, and the order stays', async (_, jumpMs) => {
    vi.useFakeTimers({ toFake: ['Date'] })
    onTestFinished(() => {
      vi.useRealTimers()
    })
    const names = ['1.JPG', '2.JPG', '3.JPG', '4.JPG']
    const take = async (name: string, gray: number) => {
      await session.put(name, await grayJpeg(gray))
      await session.until(() => session.frames().some((line) => line.startsWith(name)))
    }
    const url = await session.start()
    await take('1.JPG', 100)
    vi.setSystemTime(Date.now() + jumpMs)
    await take('2.JPG', 110)
    expect(await tap(url, { do: 'sits', sitter: 'Ikeda Naoki 13377' })).toBe(204)
    await take('3.JPG', 120)
    await session.stop()
    vi.setSystemTime(Date.now() - jumpMs)
    await session.start()
    await take('4.JPG', 130)
    await session.stop()
    const entries = await log()
    expect(entries.map(({ kind, file = '' }) => `${kind} ${file}`)).toEqual([
      ...['frame 1.JPG', 'frame 2.JPG', 'sits ', 'frame 3.JPG', 'frame 4.JPG'],
    ])
    expect(names.map((name) => session.frames().filter((line) => line.startsWith(name)).length)).toEqual([
      1, 1, 1, 1,
    ])
    expect(session.frames()[3]).toMatch(/^4\.JPG {2}Ikeda Naoki 13377: /)
  })
})

describe('the folder', () => {
  it('may be renamed and come back: what arrived meanwhile is judged, and what happened is kept', async () => {
    const away = join(session.base, 'away')
    const url = await session.start()
    await session.put('1.JPG', await grayJpeg(100))
    await session.until(() => session.frames().length === 1)
    await rename(session.folder, away)
    await session.until(() => session.printed.includes('The folder is not there'))
    expect(await tap(url, { do: 'sits', sitter: 'Ikeda Naoki 13377' })).toBe(204)
    await writeFile(join(away, '2.JPG'), await grayJpeg(110))
    await rename(away, session.folder)
    await session.until(() => session.frames().length === 2)
    await session.put('3.JPG', await grayJpeg(120))
    await session.until(() => session.frames().length === 3)
    await session.stop()
    expect((await log()).map(({ kind, file = '' }) => `${kind} ${file}`)).toEqual([
      ...['frame 1.JPG', 'sits ', 'frame 2.JPG', 'frame 3.JPG'],
    ])
  })
})

describe('who sits', () => {
  it('gets the frames that follow, picks one, and takes it back; the roster says so each time', async () => {
    const url = await session.start()
    await session.put('before.JPG', await grayJpeg(100))
    await session.until(() => session.frames().length === 1)
    expect(await tap(url, { do: 'sits', sitter: 'Ikeda Naoki 13377' })).toBe(204)
    await session.put('IMG_7.JPG', await grayJpeg(110))
    await session.until(() => session.frames().length === 2)
    expect(session.frames()).toEqual([
      expect.stringMatching(/^before\.JPG {2}nobody: /),
      expect.stringMatching(/^IMG_7\.JPG {2}Ikeda Naoki 13377: /),
    ])
    const frame = await digestOf(110)
    expect(await tap(url, { do: 'pick', sitter: 'Ikeda Naoki 13377', frame })).toBe(204)
    await tap(url, { do: 'joins', frame: await digestOf(100), sitter: 'Bergström Åsa 01207' })
    expect((await shown(url)).people).toMatch(/photographed, nothing usable, 1 frame.*has picked, 1 frame/s)
    await session.stop()
    expect(await roster()).toContain('Ikeda,Naoki,13377,IMG_7.JPG\n')
    const again = await session.start()
    await tap(again, { do: 'undo' })
    await tap(again, { do: 'undo' })
    await session.stop()
    expect(await roster()).toContain('Ikeda,Naoki,13377,0042\n')
  })

  it('is nobody who is not there, and nothing that is no wish is done', async () => {
    const url = await session.start()
    expect(await tap(url, { do: 'sits', sitter: 'Somebody Else' })).toBe(409)
    expect(await tap(url, { do: 'pick', sitter: 'Ikeda Naoki 13377', frame: 'ff' })).toBe(409)
    for (const wish of [
      null,
      1,
      {},
      { do: 'sits' },
      { do: 'rm', frame: 'x' },
      { do: 'pick', sitter: 1, frame: null },
    ])
      expect(await tap(url, wish)).toBe(400)
  })

  it('is forgotten when asked', async () => {
    const url = await session.start()
    await tap(url, { do: 'sits', sitter: 'Ikeda Naoki 13377' })
    await session.put('IMG_7.JPG', await grayJpeg(110))
    await session.until(() => session.frames().length === 1)
    const frame = await digestOf(110)
    await tap(url, { do: 'pick', sitter: 'Ikeda Naoki 13377', frame })
    await session.stop()
    expect(await session.run('--forget', 'Naoki Ikede')).toBe(2)
    expect(session.complained).toContain('There is nobody called Naoki Ikede')
    expect(await session.run('--forget', 'Naoki Ikeda')).toBe(0)
    expect(JSON.stringify(await log())).not.toMatch(/Ikeda|IMG_7/)
    expect(await roster()).toContain('Ikeda,Naoki,13377,0042\n')
    const after = await session.start()
    await session.put('IMG_8.JPG', await grayJpeg(111))
    await session.until(() => session.frames().length === 2)
    expect((await fetch(`${after}picture/${frame}`)).status).toBe(404)
    expect((await shown(after)).notes).toContain('1 frame in this session')
  })
})

describe('the page', () => {
  it('shows pictures of frames and nothing else of the disk', async () => {
    await session.put('IMG_7.JPG', await grayJpeg(110))
    const url = await session.start()
    await session.until(() => session.frames().length === 1)
    const picture = await fetch(`${url}picture/${await digestOf(110)}`)
    expect([picture.status, picture.headers.get('content-type')]).toEqual([200, 'image/jpeg'])
    const outside = [
      'picture/IMG_7.JPG',
      'picture/..%2F..%2FIMG_7.JPG',
      'picture/../session.jsonl',
      'picture/',
      'staff.csv',
    ]
    for (const path of outside) expect((await fetch(url + path)).status, path).toBe(404)
  })

  it('tells the sitter no fault, and everybody what pictures are for', async () => {
    const url = await session.start()
    await tap(url, { do: 'sits', sitter: 'Ikeda Naoki 13377' })
    await session.put('IMG_7.JPG', await grayJpeg(110))
    await session.until(() => session.frames().length === 1)
    const { line = '', last = '' } = await shown(url)
    const told = /<span>(.*?)<\/span>/.exec(line)?.[1] ?? ''
    expect(told).toMatch(/face/)
    const { choices = '' } = await shown(url, 'pick-events')
    expect(choices).toContain('There is nothing to choose from yet.')
    expect(choices).not.toContain(told)
    expect(last).toContain('IMG_7.JPG')
    for (const page of [url, `${url}pick`])
      expect(await (await fetch(page)).text()).toContain('Your portrait goes on the team page.')
  })
})

describe('a session', () => {
  it('is kept by one watch at a time', async () => {
    await session.start()
    expect(await session.run()).toBe(2)
    expect(session.complained).toMatch(/is in use by another watch\. End that one first\./)
  })

  it('needs a folder and a port that there can be', async () => {
    await copyFile(join(session.base, 'staff.csv'), join(session.base, 'shoot', 'staff.csv'))
    expect(await session.run('--port', '70000')).toBe(2)
    expect(await session.run('--session', join(session.base, 'staff.csv'))).toBe(2)
    expect(session.complained).toMatch(/--port 70000 is no port.*can't be kept in .*staff\.csv \(EEXIST\)/s)
  })
})
