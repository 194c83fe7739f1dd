import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type BrowserContext, chromium } from 'playwright-core'
import { debianFile } from './debian.ts'

export interface Browser {
  readonly context: BrowserContext
  close(): Promise<void>
}

/** Path of Chromium, or null when it is missing, which the run's output tells; an error in CI. */
export const CHROMIUM = debianFile('chromium', '/usr/bin/chromium')

/** What takes this long has hung; as long as a busy machine may need, and less than a test may take, which would not say what was waited for. */
const TIMEOUT_MS = 600_000

/** Starts Chromium with an empty profile of its own; it asks nothing of the network by itself. */
export async function startBrowser(options: { javaScriptEnabled?: boolean } = {}): Promise<Browser> {
  const profile = await mkdtemp(join(tmpdir(), 'portrait-gate-chromium-'))
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM ?? '',
    headless: true,
    timeout: TIMEOUT_MS,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
    ...options,
  })
  context.setDefaultTimeout(TIMEOUT_MS)
  return {
    context,
    close: async () => {
      await context.close()
      await rm(profile, { recursive: true, force: true })
    },
  }
}
