/** Bytes from which on a buffer is used again; V8 gives back smaller ones in less time. @choice a page or two */
const LEAST_KEPT = 8192

/** Bytes that are kept in all. @choice all groups of a portrait of 7 million pixels take 84 MiB, a usual spec half of it; what a large picture takes more is given back. */
const MOST_KEPT = 96 * 1024 ** 2

/** Bytes of a picture up to which it is copied. @choice a third of all: what is copied and not kept costs time and gains none */
const MOST_COPIED = MOST_KEPT / 3

const free = new Map<number, ArrayBuffer[]>()
let keptBytes = 0
/** Those that were lent since `recycling` began; null when nothing is given back. */
let lent: ArrayBuffer[] | null = null
let works = 0

/** A buffer of at least so many bytes, which hold anything. */
export function bufferFor(bytes: number): ArrayBuffer {
  if (lent === null || bytes < LEAST_KEPT) return new ArrayBuffer(bytes)
  const size = sizeFor(bytes)
  let buffer = free.get(size)?.pop()
  if (buffer) keptBytes -= size
  else buffer = new ArrayBuffer(size)
  lent.push(buffer)
  return buffer
}

/**
 * The same bytes in a buffer that is lent, as they are while nothing is lent, in the first work or when they are many. What native code makes counts for V8 as garbage
 * outside of its heap: a few pictures that lived through a collection of young objects have it collect all, and with that what it compiled.
 */
export function lentCopy(bytes: Buffer): Buffer {
  if (lent === null || works === 1 || bytes.length > MOST_COPIED) return bytes
  const copy = Buffer.from(bufferFor(bytes.length), 0, bytes.length)
  copy.set(bytes)
  return copy
}

/**
 * Does work of which no buffer that it was lent is used afterwards, and lends them to what comes next: buffers that are made anew for each
 * picture have V8 collect its whole heap, and with it what it compiled, about once a picture.
 * @throws Error when it is called while it works
 */
export async function recycling<T>(work: () => Promise<T>): Promise<T> {
  if (lent !== null) throw new Error('Buffers are recycled for one work at a time.')
  const taken: ArrayBuffer[] = []
  lent = taken
  works++
  try {
    return await work()
  } finally {
    lent = null
    for (const buffer of taken) keep(buffer)
  }
}

/** Bytes that wait for the next work, and so are no garbage. */
export function bytesKept(): number {
  return keptBytes
}

function keep(buffer: ArrayBuffer): void {
  const size = buffer.byteLength
  if (keptBytes + size > MOST_KEPT) return
  keptBytes += size
  const same = free.get(size)
  if (same) same.push(buffer)
  else free.set(size, [buffer])
}

/** A power of two, or three quarters of one: of few sizes each is likely to be there. */
function sizeFor(bytes: number): number {
  const power = 2 ** Math.ceil(Math.log2(bytes))
  return bytes <= 0.75 * power ? 0.75 * power : power
}
