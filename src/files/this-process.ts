import type { Processes } from './own-folder.ts'

/** This process, among those of the machine. */
export const THIS_PROCESS: Processes = { own: process.pid, isRunning }

function isRunning(id: number): boolean {
  try {
    return process.kill(id, 0)
  } catch (error) {
    // One of another user may not be asked, but is there.
    return error instanceof Error && 'code' in error && error.code === 'EPERM'
  }
}
