import { execFileSync } from 'node:child_process'

/** Mounts a small disk in memory; where that is not allowed (only root may) the run's output tells. */
export function mounted(folder: string, size: string): boolean {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${size}`, 'tmpfs', folder], { stdio: 'ignore' })
    return true
  } catch {
    process.stderr.write('NOT CHECKED on a full disk: mounting one is not allowed here.\n')
    return false
  }
}
