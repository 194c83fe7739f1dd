import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import type { Files } from './repository.ts'

/** Asks for what can be told of a picture without a face: the gate is tested here, not the measurements. */
export const SPEC = `brand: Osprey Lane Veterinary Group
version: 1
naming:
  pattern: "{family}-{given}.jpg"
one-face: false
pixel-size: { width: 80, height: 100 }
roster: staff.csv
waivers: waivers.yaml
`

export const LOOSE_SPEC = SPEC.replace('width: 80', 'width: 60')

const STAFF = ['Adeyemi,Folasade', 'Dhillon,Harpreet', 'Farouk,Layla', 'Grieve,Morag']

/** A plain picture in sRGB; asked for are 80 x 100 px. */
export async function picture(width = 80, height = 100, shade = 200): Promise<Buffer> {
  const background = { r: shade, g: shade, b: shade }
  return sharp({ create: { width, height, channels: 3, background } })
    .jpeg()
    .withIccProfile('srgb')
    .toBuffer()
}

/** A delivery of four that passes. */
export async function smallDelivery(): Promise<Files> {
  const portraits = await Promise.all(
    STAFF.map(
      async (line, i) =>
        [`portraits/${line.replace(',', '-')}.jpg`, await picture(80, 100, 180 + i)] as const,
    ),
  )
  return {
    'brand.yaml': SPEC,
    'staff.csv': `family,given\n${STAFF.join('\n')}\n`,
    'waivers.yaml': '[]\n',
    ...Object.fromEntries(portraits),
  }
}

/** The example delivery, with drawn sitters, of two people in both deliverables. */
export async function exampleDelivery(): Promise<Files> {
  const home = 'examples/osprey-lane'
  const people = ['Adeyemi-Folasade_00418', 'Farouk-Layla_11904']
  const spec = await readFile(join(home, 'brand.yaml'), 'utf8')
  const staff = await readFile(join(home, 'staff.csv'), 'utf8')
  const [header = '', ...rows] = staff.split('\n')
  const own = rows.filter((row) => /^(?:Adeyemi|Farouk),/.test(row))
  const files: Record<string, Buffer | string> = {
    'brand.yaml': spec.replace(/^waivers:.*$/m, ''),
    'staff.csv': `${[header, ...own].join('\n')}\n`,
  }
  for (const folder of ['print', 'web'])
    for (const name of await readdir(join(home, 'delivery-clean', folder)))
      if (people.some((person) => name.startsWith(person)))
        files[`portraits/${folder}/${name}`] = await readFile(join(home, 'delivery-clean', folder, name))
  return files
}
