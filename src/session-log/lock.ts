import { createHash } from 'node:crypto'
import { realpath, rm } from 'node:fs/promises'
import { connect, createServer, type Server } from 'node:net'
import { platform, tmpdir } from 'node:os'
import { join } from 'node:path'

/**
 * Takes a session for this process: two that write one log would spoil it. The system gives it back when the process ends,
 * however it ends, for what is taken is a local socket that only a running process answers at.
 * @param folder absolute, and there
 * @returns gives it back; null when another process of this machine has it
 * @throws the system's error when no socket can be made
 */
export async function takeSession(folder: string): Promise<(() => Promise<void>) | null> {
  const path = socketOf(await realpath(folder))
  const taken = (await listening(path)) ?? (await takenOver(path))
  return taken && (() => new Promise((resolve) => taken.close(() => resolve())))
}

/** Characters of the folder's hash that tell one socket from another; systems allow paths of some 100. @choice 96 bits */
const NAME = 24

function socketOf(folder: string): string {
  const name = `portrait-gate-${createHash('sha256').update(folder).digest('hex').slice(0, NAME)}`
  return platform() === 'win32' ? `\\\\.\\pipe\\${name}` : join(tmpdir(), name)
}

/** Null when somebody answers there; what a killed process left is taken over. */
async function takenOver(path: string): Promise<Server | null> {
  if (await isAnswered(path)) return null
  await rm(path, { force: true })
  return listening(path)
}

/** Null when there is a socket already. */
function listening(path: string): Promise<Server | null> {
  return new Promise((resolve, reject) => {
    const server = createServer((socket) => socket.destroy())
    server.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE') resolve(null)
      else reject(error)
    })
    server.listen(path, () => resolve(server.unref()))
  })
}

function isAnswered(path: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(path)
    const answer = (is: boolean) => {
      socket.destroy()
      resolve(is)
    }
    socket.once('connect', () => answer(true)).once('error', () => answer(false))
  })
}
