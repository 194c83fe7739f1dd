import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../../src/commands/run.ts'
import type { Report } from '../../../src/judge/report.ts'
import { recordingHost } from '../../commands/host.ts'
import { type Browser, CHROMIUM, startBrowser } from '../../outside/browser.ts'
import { DARKER_FROM, deliverable, FRAMES_EACH, frameOf, type Person, PLANTED } from './frames.ts'
import { Running } from './running.ts'

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js')
/** Where to keep what the pages look like, to be looked at: SHOTS=/some/folder. */
const SHOTS = process.env.SHOTS
const SPEC = `brand: Osprey Lane Veterinary Group
version: 1
naming: { pattern: "{family}-{given}_{staff-id}.jpg" }
roster: staff.csv
consent: Your portrait goes on the team page.
deliverables:
  web: {}
`
const FRAME_RULES = `aspect-ratio: "4:5"
pixel-size: { width: { min: 500 }, height: { min: 625 } }
headroom: { min: 3, max: 20 }
eye-line: { min: 25, max: 55 }
head-height: { min: 40, max: 75 }
tilt: { max: 2.5 }
eye-focus: { max: 2 }
background-lightness: { target: 92, tolerance: 9 }
`

/** What the page says of a frame, by what is wrong in it. */
const TOLD = { 'out of focus': /^Focus on the eyes\.$/, tilted: /^Level the camera/, nothing: /^Good\.$/ }

// A whole session as a photographer and twelve sitters have it: by the keyboard alone, in Chromium (Debian).
/** A whole staff by hand: SITTERS=12 npm run test:long tests/long/watch/set.test.ts */
const SITTERS = Number(process.env.SITTERS ?? DARKER_FROM + 2)

describe.skipIf(CHROMIUM === null)(`a session of ${SITTERS} sitters with 8 frames each`, () => {
  let base: string
  let browser: Browser
  let watching: Running
  let page: Page
  let people: Person[]
  const names = new Map<string, string>()

  beforeAll(async () => {
    base = await mkdtemp(join(tmpdir(), 'portrait-gate-set-'))
    await mkdir(join(base, 'shoot'))
    await writeFile(join(base, 'brand.yaml'), SPEC.replace('deliverables:\n  web: {}\n', FRAME_RULES))
    const staff = await readFile(join('examples', 'osprey-lane', 'staff.csv'), 'utf8')
    const rows = staff
      .trim()
      .split('\n')
      .slice(1)
      .filter((row) => row.endsWith(','))
    people = rows.slice(0, SITTERS).map((row) => {
      const [family = '', given = '', staffId = ''] = row.split(',')
      return { family, given, staffId }
    })
    const roster = people.map(({ family, given, staffId }) => `${family},${given},${staffId},\n`)
    await writeFile(join(base, 'staff.csv'), `family,given,staff-id,pick\n${roster.join('')}`)
    browser = await startBrowser()
    watching = await Running.start(base, '--bell')
    page = await browser.context.newPage()
    await page.setViewportSize({ width: 1440, height: 900 })
    await page.goto(await watching.url())
    // What keys do comes with the first thing that the server tells.
    await page.locator('#next').waitFor()
  })
  afterAll(async () => {
    await browser?.close()
    await watching?.end()
    await rm(base, { recursive: true, force: true })
  })

  async function shot(name: string): Promise<void> {
    if (SHOTS !== undefined) await page.screenshot({ path: join(SHOTS, `${name}.png`) })
  }

  async function axe(): Promise<void> {
    await page.evaluate(await readFile(AXE, 'utf8'))
    const found: unknown = await page.evaluate(
      `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
        .then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ html }) => html.slice(0, 200)).join(' | ')))`,
    )
    expect(found).toEqual([])
    expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true)
  }

  test('is played by the keyboard: who sits, what is told, what is picked', async () => {
    expect(people).toHaveLength(SITTERS)
    for (const [s, person] of people.entries()) {
      await page.keyboard.press('n')
      await page
        .getByRole('region', { name: 'Who sits now' })
        .getByText(`${person.given} ${person.family}`, { exact: true })
        .waitFor()
      for (let n = 0; n < FRAMES_EACH; n++) {
        const name = `OSL_${String(100 + s * FRAMES_EACH + n).padStart(4, '0')}.JPG`
        await writeFile(join(base, 'shoot', name), await frameOf(person, s, n))
        await page.locator('#last .file', { hasText: name }).waitFor()
        expect(await page.locator('#line h1').textContent(), name).toMatch(TOLD[PLANTED[n] ?? 'nothing'])
        if (s === people.length - 1 && n === 2) await shot('fault')
      }
      if (s === people.length - 1) await shot('desktop')
      await page.keyboard.press('p')
      const choices = page.locator('#choices button')
      await choices.first().waitFor()
      expect(await choices.count(), person.family).toBe(FRAMES_EACH - Object.keys(PLANTED).length)
      expect(await page.locator('main').textContent()).not.toMatch(/Focus|Level|Good|darker/)
      const pick = 1 + (s % 6)
      await page.keyboard.press(String(pick))
      await page.getByText(`You chose number ${pick}.`).waitFor()
      if (s === people.length - 1) await shot('pick')
      if (s === people.length - 1) await axe()
      const good = Array.from({ length: FRAMES_EACH }, (_, n) => n).filter((n) => !(n in PLANTED))
      names.set(
        person.family,
        `OSL_${String(100 + s * FRAMES_EACH + (good[pick - 1] ?? 0)).padStart(4, '0')}.JPG`,
      )
      await page.keyboard.press('Escape')
      await page.locator('#people').getByText('has picked').nth(s).waitFor()
    }
    // The light that fell off is told, with the time on the camera at which it did.
    await page
      .locator('#line')
      .getByText(`Since 14:${DARKER_FROM * 4} the backdrop is 0.3 stop darker.`)
      .waitFor()
    expect(watching.printed.split('\u0007')).toHaveLength(1 + people.length * Object.keys(PLANTED).length)
  })

  test.each([
    ['light', 1440, 900],
    ['dark', 1440, 900],
    ['light', 820, 1180],
    ['dark', 390, 800],
  ] as const)('the pages are accessible: %s, %i x %i', async (colorScheme, width, height) => {
    await page.emulateMedia({ colorScheme })
    await page.setViewportSize({ width, height })
    await axe()
    await shot(`${colorScheme}-${width}`)
    await page.keyboard.press('p')
    await page.locator('#choices button').first().waitFor()
    await axe()
    await shot(`${colorScheme}-${width}-pick`)
    await page.keyboard.press('Escape')
    await page.locator('#people button').first().waitFor()
  })

  test('everything that can be tapped is reached by keys', async () => {
    await page.setViewportSize({ width: 1440, height: 900 })
    const all = await page.locator('button, a[href], select').count()
    const reached = new Set<string>()
    for (let n = 0; n < all + 2; n++) {
      await page.keyboard.press('Tab')
      const id: unknown = await page.evaluate('document.activeElement?.id ?? ""')
      if (typeof id === 'string' && id !== '') reached.add(id)
    }
    expect(reached.size).toBe(all)
  })

  test('a delivery made from the picks is right, and one from another frame is not', async () => {
    await watching.end()
    const delivery = join(base, 'delivery')
    await mkdir(delivery)
    for (const [s, person] of people.entries()) {
      const { family, given, staffId } = person
      const picked = names.get(family) ?? ''
      const file = await deliverable(
        await frameOf(person, s, Number(picked.slice(4, 8)) - 100 - s * FRAMES_EACH),
        picked,
      )
      await writeFile(join(delivery, `${family}-${given}_${staffId}.jpg`), file)
    }
    await writeFile(
      join(base, 'delivery.yaml'),
      SPEC.replace('deliverables:\n  web: {}\n', 'picked-frame: roster\n'),
    )
    const check = async () => {
      const { code, stdout } = await checked()
      const { delivery } = JSON.parse(stdout) as Report
      return {
        code,
        picks: delivery.outcomes.filter(({ rule }) => rule === 'picked-frame').map(({ verdict }) => verdict),
      }
    }
    expect(await check()).toEqual({ code: 0, picks: people.map(() => 'pass') })
    const [first] = people
    if (!first) throw new Error('Nobody is on the roster.')
    const other = await deliverable(await frameOf(first, 0, 4), 'OSL_0104.JPG')
    await writeFile(join(delivery, `${first.family}-${first.given}_${first.staffId}.jpg`), other)
    const { code, picks } = await check()
    expect([code, picks.filter((verdict) => verdict === 'fail')]).toEqual([1, ['fail']])
  })

  async function checked(): Promise<{ code: number; stdout: string }> {
    const { host, stdout } = recordingHost(base)
    const args = ['check', 'delivery', '--spec', 'delivery.yaml', '--format', 'json', '--no-cache']
    return { code: await run(args, host), stdout: stdout() }
  }
})
