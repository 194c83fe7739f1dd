import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { OpenDesk } from '../../desk/open-desk.ts'
import { type Browser, CHROMIUM, startBrowser } from '../../outside/browser.ts'

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js')
/** Where to keep what the page looks like, to be looked at: SHOTS=/some/folder. */
const SHOTS = process.env.SHOTS

// A delivery as somebody receives it who knows no terminal: by the keyboard alone, in Chromium (Debian).
describe.skipIf(CHROMIUM === null)('the desk', () => {
  let desk: OpenDesk
  let browser: Browser
  let page: Page
  const wrong: string[] = []

  beforeAll(async () => {
    desk = await OpenDesk.make()
    await desk.seal('osprey.zip')
    browser = await startBrowser()
    page = await browser.context.newPage()
    page.on('console', (message) => {
      if (message.type() === 'error') wrong.push(message.text())
    })
    page.on('pageerror', (error) => wrong.push(error.message))
    await page.goto(await desk.open())
  })
  afterAll(async () => {
    await browser?.close()
    await desk?.remove()
  })

  /** Whether the page is accessible and fits: light and wide, dark and narrow; for who looks, all four. */
  async function looks(name: string): Promise<void> {
    for (const [colorScheme, width] of [
      ['light', 1200],
      ['dark', 390],
      ...(SHOTS === undefined
        ? []
        : ([
            ['dark', 1200],
            ['light', 390],
          ] as const)),
    ] as const) {
      await page.emulateMedia({ colorScheme })
      await page.setViewportSize({ width, height: 900 })
      await page.evaluate(await readFile(AXE, 'utf8'))
      const found: unknown = await page.evaluate(
        `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
          .then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ html }) => html.slice(0, 200)).join(' | ')))`,
      )
      if (SHOTS !== undefined)
        await page.screenshot({ path: join(SHOTS, `${name}-${colorScheme}-${width}.png`), fullPage: true })
      expect(found, `${name} ${colorScheme} ${width}`).toEqual([])
      expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true)
    }
  }

  /** Goes on with the Tab key until something is in focus. */
  async function tabTo(selector: string): Promise<void> {
    await page.locator(selector).first().waitFor()
    for (let n = 0; n < 60; n++) {
      if (await page.evaluate(`document.activeElement?.matches(${JSON.stringify(selector)})`)) return
      await page.keyboard.press('Tab')
    }
    throw new Error(`The Tab key does not lead to ${selector}.`)
  }

  async function choose(selector: string, path: string): Promise<void> {
    await tabTo(selector)
    const chooser = page.waitForEvent('filechooser')
    await page.keyboard.press('Enter')
    await (await chooser).setFiles(path)
  }

  test('a zip is chosen by keys, the studio’s question answered, and the delivery signed', async () => {
    await looks('empty')
    await choose('#zip', join(desk.base, 'osprey.zip'))
    await page.getByText('Of 2 portraits, 1 fails.').waitFor()
    await looks('questions')
    await tabTo('input[name=by]')
    await page.keyboard.type('Ingrid Vale')
    await page.keyboard.press('Shift+Tab')
    await tabTo('input[type=radio]')
    await page.keyboard.press('Space')
    await page.getByText('All 2 portraits pass.').waitFor()
    // What was typed before is still there.
    await tabTo('textarea[name=note]')
    await page.keyboard.type('Thank you.')
    // Enter in the line for the name signs nothing.
    await page.evaluate("globalThis.sent = 0; addEventListener('submit', () => { globalThis.sent++ }, true)")
    await page.keyboard.press('Shift+Tab')
    await page.keyboard.press('Enter')
    expect(await page.evaluate('globalThis.sent')).toBe(0)
    await tabTo('button[value=approved]')
    await page.keyboard.press('Enter')
    await page.getByText('Approved by Ingrid Vale.').waitFor()
    await looks('signed')
    await tabTo('[id^=save-]')
    const download = page.waitForEvent('download')
    await page.keyboard.press('Enter')
    const saved = await download
    expect(saved.suggestedFilename()).toBe('osprey.zip.sign-off.json')
    const signed: unknown = JSON.parse(await readFile(await saved.path(), 'utf8'))
    expect(signed).toMatchObject({ decision: 'approved', by: 'Ingrid Vale', note: 'Thank you.' })
  })

  test('the full report opens in a tab of its own, where its filters work', async () => {
    await tabTo('[id^=report-]')
    const opened = page.context().waitForEvent('page')
    await page.keyboard.press('Enter')
    const tab = await opened
    await tab.waitForLoadState()
    await tab.locator('select[name=standing]').selectOption('pass')
    expect(new URL(tab.url()).hash).toBe('#standing=pass')
    // Nothing in it can reach the desk.
    expect(
      await tab.evaluate("fetch('../../do', { method: 'POST', body: '{}' }).then(() => true, () => false)"),
    ).toBe(false)
    await tab.close()
  })

  test('a folder that is dropped is received with all that is in it, and returned', async () => {
    const cdp = await page.context().newCDPSession(page)
    const data = { items: [], files: [join(desk.base, 'delivery')], dragOperationsMask: 1 }
    for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
      await cdp.send('Input.dispatchDragEvent', { type, x: 100, y: 100, data })
    await page.getByText('It is not sealed').waitFor()
    await looks('folder')
    await tabTo('input[name=by]')
    await page.keyboard.type('Ingrid Vale')
    await tabTo('button[value=returned]')
    await page.keyboard.press('Enter')
    await page.getByText('Returned by Ingrid Vale.').waitFor()
  })

  test('the house style is chosen by keys, and the end takes everything off the page', async () => {
    await tabTo('#choose')
    await page.keyboard.press('Enter')
    await tabTo('#above')
    await page.keyboard.press('Enter')
    await tabTo('#take-0')
    await looks('choose')
    await page.keyboard.press('Enter')
    await page.getByText('version 1', { exact: false }).first().waitFor()
    expect(wrong).toEqual([])
    await tabTo('#end')
    await page.getByText('The sign-off of delivery is not saved yet.').waitFor()
    await page.getByRole('button', { name: 'End portrait-gate without saving' }).waitFor()
    await page.keyboard.press('Enter')
    await page.getByRole('alert').getByText('portrait-gate has ended').waitFor()
    expect(await page.locator('main').textContent()).not.toMatch(/Adeyemi|Ingrid|osprey/)
    expect(await desk.ended).toBe(0)
  })
})
