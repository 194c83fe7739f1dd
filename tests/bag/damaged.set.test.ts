import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { folderSink } from '../../src/bag/folder-sink.ts'
import { type BagState, validateBag } from '../../src/bag/validate.ts'
import { writeBag } from '../../src/bag/write-bag.ts'
import { seeded } from '../random.ts'
import { part } from '../sets.ts'

/*
 * A bag of ours, damaged in a thousand ways. Of each it is known what should be told: RFC 8493, 3, says what makes a bag
 * incomplete and what makes it invalid.
 */
const signal = new AbortController().signal
const NAMES = [
  'print/Abara.jpg',
  'print/Lund-Bjørn.jpg',
  'print/Núñez.jpg',
  'web/Abara.jpg',
  'web/Lund-Bjørn.jpg',
  'web/100%.jpg',
]
const TAGS = ['bag-info.txt', 'portrait-gate/report.json', 'portrait-gate/waivers.yaml']
const LISTS = ['manifest-sha256.txt', 'manifest-sha512.txt']
const TAG_LISTS = ['tagmanifest-sha256.txt', 'tagmanifest-sha512.txt']

let bag = ''
const originals = new Map<string, Buffer>()

beforeAll(async () => {
  const around = mkdtempSync(join(tmpdir(), 'damaged-'))
  bag = join(around, 'bag')
  mkdirSync(bag)
  const random = seeded(8493)
  const payload = NAMES.map((file, i) => {
    const path = join(around, `${i}`)
    writeFileSync(path, Buffer.from(Array.from({ length: 600 + 50 * i }, () => Math.floor(256 * random()))))
    return { file, path, bytes: 600 + 50 * i, sha256: null }
  })
  const tags = new Map([
    ['portrait-gate/report.json', `${JSON.stringify({ verdict: 'pass', brand: 'Osprey Lane' })}\n`],
    ['portrait-gate/waivers.yaml', '[]\n'],
  ])
  const info = [['Bagging-Date', '2026-11-25']] as const
  await writeBag({ payload, tags, info, sign: null }, folderSink(bag), signal)
  for (const name of readdirSync(bag, { recursive: true }).map(String))
    if (statSync(join(bag, name)).isFile()) originals.set(name, readFileSync(join(bag, name)))
})

/** Puts the bag back as it was packed. Only what was damaged is written: to write over a file costs the disk far more than to read it. */
function restore(): void {
  for (const name of readdirSync(bag, { recursive: true }).map(String))
    if (!originals.has(name) && statSync(join(bag, name), { throwIfNoEntry: false })?.isFile())
      rmSync(join(bag, name))
  for (const [name, bytes] of originals) {
    const path = join(bag, name)
    if (!existsSync(path) || !readFileSync(path).equals(bytes)) put(name, bytes)
  }
}

function put(name: string, bytes: Buffer | string): void {
  mkdirSync(dirname(join(bag, name)), { recursive: true })
  writeFileSync(join(bag, name), bytes)
}

interface Chance {
  readonly below: (n: number) => number
  readonly of: <T>(list: readonly T[]) => T
}

/** What is told of a damage: all of it, or what must be among it when one change has several consequences. */
type Told = { readonly all: readonly string[] } | { readonly some: string; readonly only?: RegExp }

const original = (name: string): Buffer => originals.get(name) ?? Buffer.alloc(0)
const payloadName = ({ of }: Chance) => `data/${of(NAMES)}`

/** Another bit somewhere; a digit in the other letter case would be the same checksum. */
function flipped(bytes: Buffer, { below }: Chance): Buffer {
  const copy = Buffer.from(bytes)
  const at = below(copy.length)
  copy[at] = (copy[at] ?? 0) ^ (1 << below(8))
  const text = (one: Buffer) => one.toString('latin1').toLowerCase()
  return text(copy) === text(bytes) ? flipped(bytes, { below } as Chance) : copy
}

const DAMAGES: Readonly<Record<string, (chance: Chance) => Told>> = {
  'a bit of a portrait': (chance) => {
    const name = payloadName(chance)
    put(name, flipped(original(name), chance))
    return { all: [`changed ${name}`] }
  },
  'a portrait cut off': (chance) => {
    const name = payloadName(chance)
    put(name, original(name).subarray(0, chance.below(original(name).length)))
    return { all: [`changed ${name}`, 'oxum bag-info.txt'] }
  },
  'a portrait missing': (chance) => {
    const name = payloadName(chance)
    rmSync(join(bag, name))
    return { all: [`missing ${name}`, 'oxum bag-info.txt'] }
  },
  'a portrait added': ({ below }) => {
    const name = `data/web/Osei-${below(1e6)}.jpg`
    put(name, 'x')
    return { all: ['oxum bag-info.txt', `unlisted ${name}`] }
  },
  'a file of the system added': ({ of }) => {
    const name = of(['data/.DS_Store', 'data/web/Thumbs.db', 'data/print/desktop.ini'])
    put(name, 'x')
    return { all: ['oxum bag-info.txt', `unlisted ${name}`] }
  },
  'two portraits swapped': (chance) => {
    const first = payloadName(chance)
    const second = `data/${chance.of(NAMES.filter((name) => `data/${name}` !== first))}`
    put(first, original(second))
    put(second, original(first))
    return { all: [`changed ${first}`, `changed ${second}`].sort() }
  },
  'a portrait renamed': (chance) => {
    const name = payloadName(chance)
    const other = chance.of([
      name.replace('.jpg', ' (1).jpg'),
      name.replace('.jpg', '.JPG'),
      name.replace('data/', 'data/old/'),
    ])
    mkdirSync(dirname(join(bag, other)), { recursive: true })
    renameSync(join(bag, name), join(bag, other))
    return { all: [`missing ${name}`, `unlisted ${other}`] }
  },
  'a portrait of last year': (chance) => {
    const name = payloadName(chance)
    put(name, Buffer.alloc(original(name).length, chance.below(256)))
    return { all: [`changed ${name}`] }
  },
  'a bit of a tag file': (chance) => {
    const name = chance.of(TAGS)
    put(name, flipped(original(name), chance))
    return { some: `changed ${name}`, only: /^\w+ bag-info\.txt$|^changed / }
  },
  'a tag file missing': ({ of }) => {
    const name = of(TAGS)
    rmSync(join(bag, name))
    return { all: [`missing ${name}`] }
  },
  'a bit of a list': (chance) => {
    const name = chance.of(LISTS)
    put(name, flipped(original(name), chance))
    return { some: `changed ${name}` }
  },
  'a list cut off': (chance) => {
    const name = chance.of(LISTS)
    put(name, original(name).subarray(0, chance.below(original(name).length)))
    return { some: `changed ${name}` }
  },
  'a list missing': ({ of }) => {
    const name = of(LISTS)
    rmSync(join(bag, name))
    return { all: [`missing ${name}`] }
  },
  'a line of a list twice': ({ of }) => {
    const name = of(LISTS)
    const text = original(name).toString()
    put(name, `${text}${text.split('\n')[0]}\n`)
    return { some: `changed ${name}`, only: /^(?:twice|changed) / }
  },
  'checksums in a list exchanged': ({ of }) => {
    const name = of(LISTS)
    const [one = '', two = '', ...rest] = original(name).toString().split('\n')
    const [a, b] = [one.split('  '), two.split('  ')]
    put(name, [`${b[0]}  ${a[1]}`, `${a[0]}  ${b[1]}`, ...rest].join('\n'))
    return { all: [`changed ${name}`, `changed ${a[1]}`, `changed ${b[1]}`].sort() }
  },
  'a list in another encoding': ({ of }) => {
    const name = of(LISTS)
    put(name, Buffer.from(original(name).toString(), of(['latin1', 'utf16le'])))
    return { some: `line ${name}` }
  },
  'another encoding declared': ({ of }) => {
    put(
      'bagit.txt',
      `BagIt-Version: 1.0\nTag-File-Character-Encoding: ${of(['ISO-8859-1', 'UTF-16', 'EBCDIC'])}\n`,
    )
    return { some: '' }
  },
  'a bit of the declaration': (chance) => {
    put('bagit.txt', flipped(original('bagit.txt'), chance))
    return { some: '' }
  },
  'the declaration missing': () => {
    rmSync(join(bag, 'bagit.txt'))
    return { all: ['missing bagit.txt'] }
  },
  'a bit of a list of lists': (chance) => {
    const name = chance.of(TAG_LISTS)
    put(name, flipped(original(name), chance))
    return { some: '' }
  },
  'a list of lists cut off': (chance) => {
    const name = chance.of(TAG_LISTS)
    put(name, original(name).subarray(0, chance.below(original(name).length)))
    return { some: '' }
  },
  'files still to be fetched': (chance) => {
    const name = payloadName(chance)
    rmSync(join(bag, name))
    put('fetch.txt', `https://studio.example/${chance.below(99)} - ${name.replaceAll('%', '%25')}\n`)
    return { all: ['oxum bag-info.txt', `to-fetch ${name}`] }
  },
}

const CASES = Array.from({ length: 1012 }, (_, i) => {
  const kinds = Object.keys(DAMAGES)
  return { seed: i, kind: kinds[i % kinds.length] ?? '' }
})

/** What is wrong about what was told; null when it is as it should be. */
function whatIsWrong({ valid, problems, warnings }: BagState, told: Told): string | null {
  const found = problems.map(({ fault, file }) => `${fault} ${file}`).sort()
  const said = found.join('; ')
  // The standard does not ask that lists of tag files agree; receiving does.
  if (valid) return warnings.some(({ fault }) => fault === 'lists') ? null : 'accepted'
  if ('all' in told) return said === [...told.all].sort().join('; ') ? null : said
  const isTold = found.some((one) => one.startsWith(told.some))
  return isTold && found.every((one) => told.only?.test(one) ?? true) ? null : said
}

test('the bag is valid, and says nothing', async () => {
  const { valid, problems, warnings } = await validateBag(bag, signal)
  expect({ valid, problems, warnings }).toEqual({ valid: true, problems: [], warnings: [] })
})

test('each damage is told, exactly, and no damaged bag is accepted', async () => {
  const wrong: string[] = []
  for (const { seed, kind } of part(CASES, 19)) {
    const random = seeded(seed)
    const below = (n: number) => Math.floor(n * random())
    const told = damage(kind, { below, of: (list) => list[below(list.length)] as (typeof list)[number] })
    const problem = whatIsWrong(await validateBag(bag, signal), told)
    if (problem !== null) wrong.push(`${kind}, seed ${seed}: ${problem}`)
    restore()
  }
  expect(wrong).toEqual([])
})

function damage(kind: string, chance: Chance): Told {
  const made = DAMAGES[kind]?.(chance)
  if (!made) throw new Error(`There is no damage called ${kind}.`)
  return made
}
