import { vi } from 'vitest'

/** How often the bytes of any buffer are read as numbers while something is done: work as no clock tells it. */
export function bytesRead(act: () => unknown): number {
  const readers = ['readUInt8', 'readUInt16BE', 'readUInt16LE', 'readUInt32BE', 'readUInt32LE'] as const
  const spies = readers.map((reader) => vi.spyOn(Buffer.prototype, reader))
  try {
    act()
    return spies.reduce((sum, spy) => sum + spy.mock.calls.length, 0)
  } finally {
    for (const spy of spies) spy.mockRestore()
  }
}
