import { mkdir, open } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import type { BagSink } from './write-bag.ts'

/** Writes a bag into a folder that is there and empty. @param folder absolute */
export function folderSink(folder: string): BagSink {
  return {
    async file(path, _bytes, write) {
      const target = join(folder, path)
      await mkdir(dirname(target), { recursive: true })
      const file = await open(target, 'wx')
      try {
        await write(async (data) => {
          await file.writeFile(data)
        })
        await file.sync()
      } finally {
        await file.close()
      }
    },
  }
}
