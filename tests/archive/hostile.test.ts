import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { buffer } from 'node:stream/consumers'
import { deflateRawSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { ZipFile } from 'yazl'
import { RefusedArchive } from '../../src/archive/refused-archive.ts'
import { isZip, unpackZip } from '../../src/archive/unpack.ts'
import { type Ending, type Part, zipBytes } from './zip-bytes.ts'

/*
 * Zips that mean harm, made byte by byte by PKWARE's APPNOTE 6.3.10. The tricks: Snyk, "Zip Slip" (2018); David Fifield, "A better zip
 * bomb" (2019), on overlapping files; two ends in one zip and names that differ between list and file, from memory.
 */
const jpeg = Buffer.from('ffd8ffe000104a464946', 'hex')
const fine: Part = { name: 'print/Abara.jpg', data: jpeg }
const link = 0o120777
const zeros = Buffer.alloc(1024 * 1024)
const packed = deflateRawSync(zeros)

const HOSTILE: [what: string, told: RegExp, parts: readonly Part[], ending?: Ending][] = [
  ['a path that climbs out', /would go out of the folder/, [fine, { name: '../../evil.jpg' }]],
  ['a path that climbs out from within', /would go out of the folder/, [{ name: 'print/../../evil.jpg' }]],
  ['a path that stays, but goes by ..', /would go out of the folder/, [{ name: 'print/../web/a.jpg' }]],
  ['an absolute path', /root of a disk/, [{ name: '/etc/cron.d/evil' }]],
  ['a path on a drive', /root of a disk/, [{ name: 'C:/Windows/evil.jpg' }]],
  ['backslashes', /backslash/, [{ name: '..\\..\\evil.jpg' }]],
  ['an UNC path', /backslash/, [{ name: '\\\\server\\share\\evil.jpg' }]],
  ['a NUL in a name', /NUL/, [{ name: 'a.jpg\0.exe' }]],
  ['an alternate data stream', /contains the character :/, [{ name: 'a.jpg:evil' }]],
  ['the name of a device', /reserved for a device/, [{ name: 'print/con.jpg' }]],
  ['a name that ends with a period', /ends with a period/, [{ name: 'a.jpg.' }]],
  ['a name with a turn of the reading direction', /invisible character/, [{ name: 'a\u202egpj.exe.jpg' }]],
  ['a link', /link or a device/, [{ name: 'print', mode: link, data: Buffer.from('/etc') }]],
  [
    'a link, then a file through it',
    /link or a device/,
    [{ name: 'print', mode: link, data: Buffer.from('/tmp') }, fine],
  ],
  ['a device', /link or a device/, [{ name: 'sda', mode: 0o060644 }]],
  ['a pipe', /link or a device/, [{ name: 'pipe', mode: 0o010644 }]],
  ['a link of Windows', /link or a device/, [{ name: 'print', mode: 0, attributes: 0x400 }]],
  ['one name twice', /twice/, [fine, fine]],
  [
    'names that differ in case',
    /overwrite the other/,
    [{ name: 'print/Lund.jpg' }, { name: 'print/lund.jpg' }],
  ],
  ['folders that differ in case', /overwrite the other/, [{ name: 'Print/a.jpg' }, { name: 'print/b.jpg' }]],
  [
    'names that differ in how accents are stored',
    /overwrite the other/,
    [{ name: 'N\u00fa.jpg' }, { name: 'Nu\u0301.jpg' }],
  ],
  ['a file and a folder of one name', /overwrite the other/, [{ name: 'print' }, fine]],
  [
    'an encrypted file',
    /encrypted/,
    [{ ...fine, flags: 0x801, packed: Buffer.concat([Buffer.alloc(12), jpeg]) }],
  ],
  ['an unusual packing', /packed in a way \(99\)/, [{ ...fine, method: 99 }]],
  ['one part of several', /one part of several/, [fine], { disk: 1 }],
  ['files on other parts', /one part of several/, [fine], { disks: 2 }],
  [
    'a second list in the comment',
    /second list of files/,
    [fine],
    { comment: zipBytes([{ name: 'evil.jpg' }]) },
  ],
  ['something behind the end', /behind its end/, [fine], { after: Buffer.from('more') }],
  ['a program before the first file', /before its first file/, [fine], { before: Buffer.from('MZ\0') }],
  ['a list of files elsewhere', /ends elsewhere/, [fine], { directoryShift: -1 }],
  [
    'more files than it counts',
    /lists more files than it counts/,
    [fine, { name: 'evil.jpg' }],
    { entries: 1 },
  ],
  ['another name in the file than in the list', /in two ways/, [{ ...fine, localName: 'print/Evil0.jpg' }]],
  ['another checksum in the file than in the list', /in two ways/, [{ ...fine, localCrc: 1 }]],
  [
    'files that share their bytes',
    /share the same bytes/,
    [
      { name: 'a.jpg', data: zipBytes([{ name: 'b.jpg', data: jpeg }]).subarray(0, 45) },
      { name: 'b.jpg', data: jpeg, at: 35 },
    ],
  ],
  [
    'a bomb of 10 GiB',
    /has 1 MiB and would unpack to 10240 MiB/,
    [4, 4, 2].map((gib, i) => ({
      name: `${i}.jpg`,
      method: 8,
      packed,
      bytes: gib * 1024 ** 3 - (gib === 4 ? 1 : 0),
    })),
  ],
  [
    'a bomb that understates its size',
    /too many bytes/,
    [{ name: 'a.jpg', method: 8, data: zeros, bytes: 100 }],
  ],
  ['a file of another size than stated', /size mismatch/, [{ ...fine, bytes: 5 }]],
  ['a program', /a program or what starts one/, [{ name: 'print/portraits.exe' }]],
  ['a shortcut', /a program or what starts one/, [{ name: 'print/Abara.jpg.lnk' }]],
  [
    'a program under the name of a picture',
    /a program whatever its name/,
    [{ name: 'a.jpg', data: Buffer.from('MZ\x90\0\x03\0\0\0') }],
  ],
  [
    'a script under the name of a picture',
    /a program whatever its name/,
    [{ name: 'a.jpg', data: Buffer.from('#!/bin/sh\n') }],
  ],
  ['a turned bit', /damaged on the way/, [{ ...fine, crc: 1, localCrc: 1 }]],
]

const signal = new AbortController().signal

/** Unpacks in a folder of its own, and gives what is said; '' when nothing is. */
async function told(bytes: Buffer): Promise<{ said: string; left: string[]; folder: string }> {
  const around = mkdtempSync(join(tmpdir(), 'hostile-'))
  const path = join(around, 'delivery.zip')
  writeFileSync(path, bytes)
  const folder = join(around, 'within')
  const said = await unpackZip(path, folder, signal).then(
    () => '',
    (error: unknown) => {
      if (!(error instanceof RefusedArchive)) throw error
      return error.message
    },
  )
  return { said, left: readdirSync(around), folder }
}

describe('a zip that means harm', () => {
  test.each(HOSTILE)('with %s is refused, and nothing is left', async (_, expected, parts, ending) => {
    const { said, left } = await told(zipBytes(parts, ending))
    expect(said).toMatch(expected)
    expect(said).toMatch(/^[a-z].*\.$/s)
    expect(left).toEqual(['delivery.zip'])
  })

  test('cut off anywhere is refused', async () => {
    const whole = zipBytes([fine, { name: 'web/Abara.jpg', data: jpeg, method: 8 }])
    for (let length = 0; length < whole.length; length += 7) {
      const { said, left } = await told(whole.subarray(0, length))
      expect(said, String(length)).not.toBe('')
      expect(left).toEqual(['delivery.zip'])
    }
  })
})

describe('a plain zip', () => {
  test('is unpacked: stored and deflated files, folders, accents in either form, names in code page 437', async () => {
    const { said, folder } = await told(
      zipBytes([
        { name: 'print/', mode: 0o040755 },
        { name: 'print/Nu\u0301n\u0303ez.jpg', data: jpeg },
        { name: 'web/Lund-Bjørn.jpg', data: jpeg, method: 8, flags: 0 },
        { name: Buffer.from([0x81, 0x2e, 0x6a, 0x70, 0x67]), data: jpeg, flags: 0 },
      ]),
    )
    expect(said).toBe('')
    expect(readdirSync(folder, { recursive: true }).sort()).toEqual(
      ['print', 'print/Nu\u0301n\u0303ez.jpg', 'web', 'web/Lund-Bjørn.jpg', 'ü.jpg'].sort(),
    )
  })

  test('in ZIP64 is unpacked too', async () => {
    const zip = new ZipFile()
    zip.addBuffer(jpeg, 'print/Abara.jpg', { forceZip64Format: true })
    zip.end({ forceZip64Format: true, comment: '' })
    const { said, folder } = await told(await buffer(zip.outputStream))
    expect(said).toBe('')
    expect(readFileSync(join(folder, 'print/Abara.jpg'))).toEqual(jpeg)
  })

  test('is known by its first bytes', () => {
    const around = mkdtempSync(join(tmpdir(), 'zips-'))
    writeFileSync(join(around, 'a'), zipBytes([fine]))
    writeFileSync(join(around, 'b.zip'), jpeg)
    expect([isZip(join(around, 'a')), isZip(join(around, 'b.zip')), isZip(around)]).toEqual([
      true,
      false,
      false,
    ])
  })
})
