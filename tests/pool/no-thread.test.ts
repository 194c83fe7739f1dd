import { expect, test, vi } from 'vitest'
import { openEntries } from '../../src/cache/entries.ts'
import { openIndex } from '../../src/cache/file-index.ts'

// What Node throws where a thread can't be started, by its code: https://nodejs.org/docs/latest-v20.x/api/errors.html
vi.mock('node:worker_threads', async (original) => ({
  ...(await original<object>()),
  Worker: class {
    constructor() {
      throw Object.assign(new Error('Worker initialization failure: EAGAIN'), {
        code: 'ERR_WORKER_INIT_FAILED',
      })
    }
  },
}))

test('where the system starts no more threads, this one does without', async () => {
  // Other test files of this process have loaded it with Node's own threads.
  vi.resetModules()
  const { startReader } = await import('../../src/pool/look-up.ts')
  const { EntryReader } = await import('../../src/pool/entry-reader.ts')
  const cache = {
    entries: openEntries({ folder: '/nowhere', measurer: 'a' }),
    index: openIndex('/nowhere'),
  }
  expect(() => new EntryReader({ entries: cache.entries.place, index: '/nowhere' })).toThrow(/EAGAIN/)
  expect(startReader(cache, 2, 5000)).toBeNull()
})
