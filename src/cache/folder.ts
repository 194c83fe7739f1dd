import { homedir } from 'node:os'
import { isAbsolute, join } from 'node:path'

/**
 * The user's own folder for what can be made again (XDG Base Directory Specification; on macOS and Windows those of the
 * systems); null when there is none.
 * @param platform as node:os tells it
 */
export function userCacheFolder(
  env: Readonly<Record<string, string | undefined>>,
  platform: string,
  home: string,
): string | null {
  const base = baseFolder(env, platform, home)
  return isAbsolute(base) ? join(base, 'portrait-gate') : null
}

function baseFolder(
  env: Readonly<Record<string, string | undefined>>,
  platform: string,
  home: string,
): string {
  if (platform === 'win32') return env.LOCALAPPDATA ?? ''
  if (platform === 'darwin') return join(home, 'Library', 'Caches')
  const { XDG_CACHE_HOME: given = '' } = env
  // The specification: a relative path is to be ignored.
  return isAbsolute(given) ? given : join(home, '.cache')
}

/** The user's own folder; empty for a user without one, such as a number that no account has, in a container. */
export function homeFolder(): string {
  try {
    return homedir()
  } catch {
    return ''
  }
}
