import { execFileSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { chmod, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'

// Root may read and write everything: commands run as nobody then.
const SETPRIV = '/usr/bin/setpriv'
const NOBODY = '65534'
const isRoot = process.getuid?.() === 0
const AS_NOBODY = [SETPRIV, '--reuid', NOBODY, '--regid', NOBODY, '--clear-groups']

/**
 * What a command is run through so that a file's permissions hold: nothing for an ordinary user, `setpriv` for root.
 * Null where root can't become nobody; the run's output tells then.
 * @param folders that nobody must be able to enter, such as the build and where it works
 */
export async function throughNobody(folders: readonly string[]): Promise<readonly string[] | null> {
  if (!isRoot) return []
  if (!existsSync(SETPRIV)) return untold(`${SETPRIV} is not there`)
  // The tests' own temporary folder is its owner's only.
  if (((await stat(tmpdir())).mode & 0o1) === 0) await chmod(tmpdir(), 0o711)
  for (const folder of folders) await chmod(folder, 0o755)
  if (folders.every(isReachable)) return AS_NOBODY
  return untold('the checkout lies in a folder that only root may enter')
}

/** Gives a folder to whom the command runs as. */
export function handOver(folder: string): void {
  if (isRoot) execFileSync('chown', ['-R', `${NOBODY}:${NOBODY}`, folder])
}

function untold(reason: string): null {
  process.stderr.write(`NOT CHECKED as another user: ${reason}.\n`)
  return null
}

function isReachable(folder: string): boolean {
  try {
    execFileSync(SETPRIV, [...AS_NOBODY.slice(1), 'ls', folder], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
}
