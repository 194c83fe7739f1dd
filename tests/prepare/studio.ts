import { mkdir, mkdtemp, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import sharp from 'sharp'
import { SITTERS } from '../../examples/drawing/sitters.ts'
import type { Size } from '../../src/framing/ask.ts'
import { drawnPortrait } from '../drawn.ts'

/** A house style with a sheet, a square and a gray badge. */
const BRAND = `brand: Osprey Lane Veterinary Group
version: 1
naming:
  pattern: "{deliverable}/{family}-{given}_{staff-id}.{ext}"
  fields: { staff-id: { digits: 5 } }
masters: { naming: "{staff-id}.tif" }
prepare:
  metadata:
    creator: Studio Kestrel
    copyright: © 2026 Osprey Lane Veterinary Group
    person-shown: "{given} {family}"
    alt-text: "Portrait of {given} {family}"
deliverables:
  print:
    aspect-ratio: "4:5"
    pixel-size: { width: 320, height: 400 }
    file-format: { allow: [jpeg] }
    resolution: { ppi: 300 }
    compression: { quality: { min: 90 }, subsampling: "4:4:4" }
  web:
    aspect-ratio: "1:1"
    pixel-size: { width: 240, height: 240 }
    file-format: { allow: [webp] }
  badge:
    aspect-ratio: "3:4"
    pixel-size: { width: 240, height: 320 }
    file-format: { allow: [jpeg] }
    file-size: { max: 20 kB }
    color-space: gray
color-space: sRGB
bit-depth: 8
metadata-required: { creator: true, copyright: Osprey Lane Veterinary Group, person-shown: "{given} {family}", alt-text: true }
metadata-forbidden: [location, camera-serial, camera-model]
headroom: { min: 4, max: 16 }
eye-line: { min: 33, max: 45 }
head-height: { min: 40, max: 56 }
centering: { max: 3 }
`

const ROSTER = 'family,given,staff-id\n'

/** A folder with a spec, a roster and masters of drawn sitters, 16-bit TIFFs with private items in their metadata. */
export async function studio(
  count: number,
  {
    brand = BRAND,
    size = { widthPx: 640, heightPx: 720 },
  }: { readonly brand?: string; readonly size?: Size } = {},
): Promise<{ readonly folder: string; readonly masters: string[] }> {
  const folder = await mkdtemp(join(tmpdir(), 'studio-'))
  const rows: string[] = []
  const masters: string[] = []
  for (const { look, family, given, staffId } of SITTERS.slice(0, count)) {
    const { pixels, widthPx, heightPx } = await drawnPortrait(look, {
      ...{ ...size, placement: { crownY: 0.16, chinY: 0.56 }, offsetX: 0.02 },
      ...{ backdrop: { color: 245 }, key: { side: 'left', ratioStops: 0.6 } },
    })
    const path = join(folder, 'masters', `${staffId}.tif`)
    await put(
      path,
      await sharp(pixels, { raw: { width: widthPx, height: heightPx, channels: 3 } })
        .withExif({ IFD0: { Model: 'SECRET CAMERA' } })
        .toColourspace('rgb16')
        .tiff({ compression: 'lzw' })
        .toBuffer(),
    )
    rows.push(`${family},${given},${staffId}`)
    masters.push(path)
  }
  await put(join(folder, 'brand.yaml'), brand)
  await put(join(folder, 'staff.csv'), `${ROSTER}${rows.join('\n')}\n`)
  return { folder, masters }
}

async function put(path: string, content: string | Buffer): Promise<void> {
  await mkdir(dirname(path), { recursive: true })
  await writeFile(path, content)
}
