import { parentPort, workerData } from 'node:worker_threads'
import { openEntries } from '../cache/entries.ts'
import { openIndex } from '../cache/file-index.ts'
import type { Opened, Reading, ToOpen } from './entry-reader.ts'

/*
 * Opens entries of the cache, one portion after the other.
 */
const { entries: place, index: folder } = workerData as Reading
const entries = openEntries(place)
const index = openIndex(folder)

let last = Promise.resolve()
parentPort?.on('message', (task: ToOpen) => {
  last = last.then(async () => {
    const { bytes, lengths } = await opened(task)
    parentPort?.postMessage({ bytes, lengths }, [bytes.buffer])
  })
})

async function opened({ sources, groups }: ToOpen): Promise<Opened> {
  const texts: Uint8Array[] = []
  for (const { path, isFrame } of sources) {
    const sha256 = await index.look(path, isFrame)
    texts.push((sha256 !== null && entries.opened(sha256, groups, isFrame)) || NOTHING)
  }
  const lengths = texts.map(({ length }) => length)
  const bytes = new Uint8Array(lengths.reduce((sum, length) => sum + length, 0))
  let at = 0
  for (const text of texts) {
    bytes.set(text, at)
    at += text.length
  }
  return { bytes, lengths }
}

const NOTHING = new Uint8Array()
