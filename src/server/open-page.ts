import { spawn } from 'node:child_process'

/** What opens an address in the user's browser, by the system's name. @source xdg-utils; macOS, open(1); Windows, rundll32 as the shell's own links call it; the last two from memory */
const OPENERS: Readonly<Record<string, readonly [string, ...string[]]>> = {
  darwin: ['open'],
  win32: ['rundll32', 'url.dll,FileProtocolHandler'],
}

/** Opens an address in the user's browser, where there is one; that there is none is no error. */
export function openPage(url: string, platform: string): void {
  const [program, ...args] = OPENERS[platform] ?? ['xdg-open']
  const child = spawn(program, [...args, url], { stdio: 'ignore', detached: true })
  child.on('error', () => {})
  child.unref()
}
