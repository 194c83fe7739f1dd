import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { sniff } from '../../../../src/measure/file/container/sniff.ts'
import { readBlocks } from '../../../../src/measure/metadata/blocks/blocks.ts'
import { findBlocks } from '../../../../src/measure/metadata/blocks/find-blocks.ts'
import { DECODABLE } from '../../../../src/measure/schema/formats.ts'
import { debianFile } from '../../../outside/debian.ts'
import { exifrFields } from '../../../outside/exifr.ts'
import { packageFolder } from '../../../outside/portraits.ts'
import { DIFFERENCES } from './exifr-differences.ts'
import { ownFields } from './own-fields.ts'

interface Compared {
  readonly fields: number
  /** Names of the known differences that were met. */
  readonly met: ReadonlySet<string>
  /** Fields on which the two disagree for no known reason. */
  readonly unexplained: readonly string[]
}

/** Reads pictures with our readers and with exifr and compares them field by field. */
async function compared(paths: readonly string[]): Promise<Compared> {
  const met = new Set<string>()
  const unexplained: string[] = []
  let fields = 0
  for (const path of paths) {
    const content = await readFile(path)
    const format = DECODABLE.find((one) => one === sniff(content))
    if (!format) continue
    const own = ownFields(readBlocks(await findBlocks(format, content)))
    const theirs = await exifrFields(content)
    for (const place of new Set([...own.keys(), ...theirs.keys()])) {
      fields++
      const [ours, other] = [own.get(place), theirs.get(place)]
      if (other !== undefined && ours?.includes(other)) continue
      const known = DIFFERENCES.filter(({ explains }) => explains(place, ours, other))
      for (const { name } of known) met.add(name)
      if (known.length === 0)
        unexplained.push(`${path}, ${place}: ${JSON.stringify({ ours, other }).slice(0, 120)}`)
    }
  }
  return { fields, met, unexplained }
}

async function picturesOf(name: string): Promise<string[]> {
  const folder = await packageFolder(name)
  const files = await readdir(folder, { recursive: true })
  return files.filter((file) => /\.(?:jpe?g|png|tiff?)$/i.test(file)).map((file) => join(folder, file))
}

// Packages whose pictures carry metadata: those of telephones, cameras and editors, and test pictures of other readers.
const PACKAGES = [
  'startbootstrap-agency',
  'argon-design-system-free',
  'soft-ui-design-system',
  'material-kit',
  'exif-parser',
  'exif',
  'node-iptc',
  'xmp-reader',
  'jpeg-exif',
]

describe('our readers and exifr 7.1.3 say the same of every field of Exif, IPTC-IIM, XMP and PNG text', () => {
  test('in some 200 pictures of npm packages, four kinds of difference apart', async () => {
    const pictures = (await Promise.all(PACKAGES.map(picturesOf))).flat()
    const { fields, met, unexplained } = await compared(pictures)
    expect(unexplained).toEqual([])
    expect(fields).toBeGreaterThan(3500)
    const here = DIFFERENCES.filter(({ name }) => name !== 'XML character references in XMP')
    expect([...met].sort()).toEqual(here.map(({ name }) => name).sort())
  })

  const board = debianFile('opencv-doc', '/usr/share/doc/opencv-doc/examples/data/board.jpg')
  test.skipIf(!board)('in board.jpg, whose description has line ends as character references', async () => {
    const { fields, met, unexplained } = await compared([board as string])
    expect(unexplained).toEqual([])
    expect(fields).toBeGreaterThan(35)
    expect([...met]).toEqual(['XML character references in XMP'])
  })
})
