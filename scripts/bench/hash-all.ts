import { createHash } from 'node:crypto'
import { readdir, readFile } from 'node:fs/promises'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { isMainThread, Worker, workerData } from 'node:worker_threads'

/*
 * Reads and hashes (SHA-256) every file of a folder and does nothing else, with a thread a core.
 * node hash-all.js FOLDER
 */
const threads = availableParallelism()
const share = isMainThread ? 0 : (workerData as number)
if (isMainThread)
  for (let i = 1; i < threads; i++)
    new Worker(fileURLToPath(import.meta.url), { workerData: i, argv: process.argv.slice(2) })
const [folder = ''] = process.argv.slice(2)
for (const [i, file] of (await readdir(folder)).entries())
  if (i % threads === share)
    createHash('sha256')
      .update(await readFile(join(folder, file)))
      .digest()
