import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { crc32, deflateRawSync } from 'node:zlib'

/** A file of a zip, every field of which may be a lie. Fields are those of PKWARE's APPNOTE 6.3.10, 4.3.7 and 4.3.12. */
export interface Part {
  readonly name: string | Buffer
  readonly data?: Buffer
  /** What the local header calls it, when that differs. */
  readonly localName?: string
  readonly flags?: number
  readonly method?: number
  /** Unix mode, file type included. */
  readonly mode?: number
  readonly attributes?: number
  readonly bytes?: number
  readonly crc?: number
  readonly localCrc?: number
  /** Where the list of files says that it begins, when that is elsewhere. */
  readonly at?: number
  readonly packed?: Buffer
}

export interface Ending {
  readonly comment?: Buffer
  readonly disk?: number
  readonly disks?: number
  readonly entries?: number
  readonly before?: Buffer
  readonly after?: Buffer
  readonly directoryShift?: number
}

const UTF8 = 0x800

/** The bytes of a zip, as its fields say. */
export function zipBytes(parts: readonly Part[], ending: Ending = {}): Buffer {
  const { before = Buffer.alloc(0), after = Buffer.alloc(0), comment = Buffer.alloc(0) } = ending
  const files: Buffer[] = [before]
  const list: Buffer[] = []
  let at = before.length
  for (const part of parts) {
    const { data = Buffer.alloc(0), flags = UTF8, method = 0, mode = 0o100644, attributes = 0 } = part
    const packed = part.packed ?? (method === 8 ? deflateRawSync(data) : data)
    const name = Buffer.from(part.name)
    const localName = Buffer.from(part.localName ?? part.name)
    const sums = (crc: number, nameLength: number) => {
      const field = Buffer.alloc(26)
      field.writeUInt16LE(20, 0)
      field.writeUInt16LE(flags, 2)
      field.writeUInt16LE(method, 4)
      field.writeUInt16LE(0x21, 8)
      field.writeUInt32LE(crc >>> 0, 10)
      field.writeUInt32LE(packed.length, 14)
      field.writeUInt32LE(part.bytes ?? data.length, 18)
      field.writeUInt16LE(nameLength, 22)
      return field
    }
    const crc = part.crc ?? crc32(data)
    const local = Buffer.concat([
      Buffer.from('PK\x03\x04'),
      sums(part.localCrc ?? crc, localName.length),
      localName,
      packed,
    ])
    const central = Buffer.alloc(14)
    central.writeUInt16LE(attributes, 6)
    central.writeUInt16LE(mode, 8)
    central.writeUInt32LE(part.at ?? at, 10)
    list.push(Buffer.concat([Buffer.from('PK\x01\x02\x3f\x03'), sums(crc, name.length), central, name]))
    if (part.at === undefined) {
      files.push(local)
      at += local.length
    }
  }
  const directory = Buffer.concat(list)
  const end = Buffer.alloc(22)
  end.write('PK\x05\x06', 'latin1')
  end.writeUInt16LE(ending.disk ?? 0, 4)
  end.writeUInt16LE(ending.disk ?? 0, 6)
  end.writeUInt16LE(ending.entries ?? parts.length, 8)
  end.writeUInt16LE(ending.disks ?? ending.entries ?? parts.length, 10)
  end.writeUInt32LE(directory.length, 12)
  end.writeUInt32LE(at + (ending.directoryShift ?? 0), 16)
  end.writeUInt16LE(comment.length, 20)
  return Buffer.concat([...files, directory, end, comment, after])
}

/** A plain zip of what lies below a folder, or of some of it. */
export function zipOf(folder: string, names: readonly string[] = readdirSync(folder)): Buffer {
  const files = names.flatMap((name) => {
    if (statSync(join(folder, name)).isFile()) return [name]
    return readdirSync(join(folder, name), { recursive: true }).map((below) => join(name, String(below)))
  })
  return zipBytes(
    files
      .filter((name) => statSync(join(folder, name)).isFile())
      .map((name) => ({ name, data: readFileSync(join(folder, name)) })),
  )
}
