import { mkdir, mkdtemp, rm } from 'node:fs/promises'
import { availableParallelism, tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { pathToFileURL } from 'node:url'
import { chromium, type Page } from 'playwright-core'
import sharp from 'sharp'
import type { Host } from '../src/checking/host.ts'
import { run } from '../src/commands/run.ts'
import { THIS_PROCESS } from '../src/files/this-process.ts'

/**
 * Takes the pictures of the README anew: the HTML report on the example delivery, whose sitters are drawn, as Chromium
 * (Debian package chromium) shows it. Run in the repository's root.
 */
const EXAMPLE = 'examples/osprey-lane'
const IMAGES = 'docs/images'
const CHROMIUM = '/usr/bin/chromium'

interface Shot {
  readonly name: string
  readonly scheme: 'light' | 'dark'
  readonly width: number
  readonly height: number
  /** Heading of the section, or text of the card, to bring to the top; none for the top of the page. */
  readonly at?: string
}

const SHOTS: readonly Shot[] = [
  { name: 'report', scheme: 'light', width: 1200, height: 800 },
  { name: 'report-set', scheme: 'light', width: 1200, height: 760, at: 'section.set' },
  { name: 'report-measures', scheme: 'light', width: 1200, height: 520, at: 'section.spread' },
  { name: 'report-portraits', scheme: 'light', width: 1200, height: 980, at: 'section.all' },
  { name: 'report-crop', scheme: 'dark', width: 1200, height: 480, at: '.card:has(.box.crop)' },
  { name: 'report-narrow', scheme: 'light', width: 390, height: 780, at: '.card:has(.box.crop)' },
]

async function writeReport(file: string): Promise<void> {
  const output = { write: (text: string) => process.stderr.write(text), columns: 80, isTTY: false }
  const host: Host = {
    cwd: process.cwd(),
    stdout: { ...output, write: () => {} },
    stderr: output,
    env: process.env,
    workers: availableParallelism(),
    userCache: null,
    processes: THIS_PROCESS,
    signal: new AbortController().signal,
  }
  const delivery = [join(EXAMPLE, 'delivery-faulty'), '--spec', join(EXAMPLE, 'brand.yaml')]
  const code = await run(['check', ...delivery, '--format', 'html', '--output', file], host)
  if (code > 1) throw new Error(`check ended with exit code ${code}.`)
}

async function take(page: Page, { name, scheme, width, height, at }: Shot): Promise<void> {
  await page.setViewportSize({ width, height })
  await page.emulateMedia({ colorScheme: scheme })
  const place = page.locator(at ?? 'body').first()
  // Twice: what was never in sight has only a guessed height before.
  for (let i = 0; i < 2; i++) {
    await place.evaluate((element) => element.scrollIntoView({ block: 'start' }))
    await page.waitForTimeout(300)
  }
  const png = await page.screenshot()
  const target = join(IMAGES, `${name}.png`)
  const { size } = await sharp(png).png({ palette: true, quality: 100, effort: 10 }).toFile(target)
  process.stdout.write(`${target}: ${Math.round(size / 1024)} kB\n`)
}

const scratch = await mkdtemp(join(tmpdir(), 'portrait-gate-screenshots-'))
try {
  await mkdir(IMAGES, { recursive: true })
  const file = join(scratch, 'report.html')
  await writeReport(file)
  const browser = await chromium.launchPersistentContext(join(scratch, 'profile'), {
    executablePath: CHROMIUM,
    headless: true,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  })
  const page = await browser.newPage()
  await page.goto(pathToFileURL(file).href)
  for (const shot of SHOTS) await take(page, shot)
  await browser.close()
} finally {
  await rm(scratch, { recursive: true, force: true })
}
