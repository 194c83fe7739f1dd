import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Page } from 'playwright-core'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Report } from '../../../src/judge/report.ts'
import { htmlReport } from '../../../src/report/html/html.ts'
import { reportOn, SPEC } from '../../judge/sample.ts'
import { type Browser, CHROMIUM, startBrowser } from '../../outside/browser.ts'
import { face, GOOD, head } from '../../rules/judging/cases.ts'
import { mastersSample } from './masters/sample.ts'
import { AT, pageOn, picturesFor, REPORT } from './sample.ts'

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js')

// As Chromium (Debian) shows it, opened from disk.
describe.skipIf(CHROMIUM === null)('in a browser', () => {
  let browser: Browser
  let plainBrowser: Browser
  let folder: string
  const url = (name: string) => pathToFileURL(join(folder, name)).href

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'portrait-gate-html-'))
    await writeFile(join(folder, 'report.html'), await pageOn(REPORT))
    browser = await startBrowser()
    plainBrowser = await startBrowser({ javaScriptEnabled: false })
  })
  afterAll(async () => {
    await browser?.close()
    await plainBrowser?.close()
    await rm(folder, { recursive: true, force: true })
  })

  /** Opens a page; what it asks of the network and what it complains of is collected. */
  async function open(
    name: string,
    from = browser,
  ): Promise<{ page: Page; asked: string[]; said: string[] }> {
    const page = await from.context.newPage()
    const asked: string[] = []
    const said: string[] = []
    page.on('request', (request) => {
      if (!request.url().startsWith('data:')) asked.push(request.url())
    })
    page.on('console', (message) => said.push(message.text()))
    page.on('pageerror', (error) => said.push(error.message))
    page.on('dialog', async (dialog) => {
      said.push(`dialog: ${dialog.message()}`)
      await dialog.dismiss()
    })
    await page.goto(url(name))
    return { page, asked, said }
  }

  const shownNames = (page: Page) =>
    page.locator('.cards > :not([hidden]) h3').evaluateAll((all) => all.map((one) => one.textContent))

  /** What axe-core finds by its rules for WCAG 2.0, 2.1 and 2.2, levels A and AA. */
  async function axe(page: Page): Promise<unknown> {
    // The page's policy lets no other script in; the debugger's own world may run one.
    await page.evaluate(await readFile(AXE, 'utf8'))
    await page.evaluate('document.querySelectorAll("details").forEach((one) => { one.open = true })')
    return page.evaluate(
      `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
        .then(({ violations, passes }) => ({ violations: violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ html }) => html.slice(0, 200)).join(' | ')), passes: passes.length }))`,
    )
  }

  test.each([
    ['light', 1440],
    ['dark', 1440],
    ['light', 390],
    ['dark', 390],
  ] as const)('axe-core finds no problems: %s, %i px wide', async (colorScheme, width) => {
    const { page } = await open('report.html')
    await page.setViewportSize({ width, height: 900 })
    await page.emulateMedia({ colorScheme })
    const found = await axe(page)
    expect(found).toMatchObject({ violations: [] })
    expect(found).toHaveProperty('passes', expect.any(Number))
    // Nothing makes the page scroll sideways (WCAG 2.2, 1.4.10 Reflow).
    expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true)
    await page.close()
  })

  test.each([
    ['light', 1200],
    ['dark', 390],
  ] as const)(
    'a page of masters: axe-core finds no problems, and no text does anything: %s, %i px wide',
    async (colorScheme, width) => {
      await writeFile(join(folder, 'masters.html'), await mastersSample())
      const { page, asked, said } = await open('masters.html')
      await page.setViewportSize({ width, height: 900 })
      await page.emulateMedia({ colorScheme })
      expect(await axe(page)).toMatchObject({ violations: [] })
      expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true)
      expect(await page.evaluate('document.scripts.length')).toBe(0)
      expect({ asked, said }).toEqual({ asked: [url('masters.html')], said: [] })
      // Those with something to do come first.
      const names = await page.locator('.card h3').allTextContents()
      expect(names).toEqual(['<script>globalThis.ran = 1</script>.tif', '00124.tif'])
      await page.close()
    },
  )

  test('nothing is asked of the network, and the policy holds', async () => {
    const { page, asked, said } = await open('report.html')
    await page.locator('.card').first().scrollIntoViewIfNeeded()
    expect(asked).toEqual([url('report.html')])
    expect(said).toEqual([])
    // A script and a style that someone slipped in do nothing, and no picture is fetched.
    await page.evaluate(
      `document.body.insertAdjacentHTML('beforeend', '<img src="https://example.invalid/x.png" onerror="globalThis.ran = 1"><p id="styled" style="color: red">x</p>')
       const script = document.createElement('script'); script.textContent = 'globalThis.ran = 1'; document.body.append(script)`,
    )
    await page.waitForTimeout(200)
    expect(await page.evaluate('globalThis.ran')).toBeUndefined()
    expect(said.filter((text) => text.includes('Content Security Policy')).length).toBeGreaterThanOrEqual(3)
    await page.close()
  })

  test('the worst come first; filters narrow, the rest leaves every list', async () => {
    const { page } = await open('report.html')
    expect(await shownNames(page)).toEqual([
      'print/Moreau-Luc_00126.jpg',
      'print/Lindqvist-Åsa_00125.jpg',
      'print/Sato-Rin_00127.jpg',
      'web/Lindqvist-Åsa_00125.jpg',
      'print/Okafor-Ada_00124.jpg',
    ])
    await page.locator('[name=standing]').selectOption('unsure')
    expect(await shownNames(page)).toEqual(['print/Sato-Rin_00127.jpg'])
    expect(await page.locator('output').textContent()).toBe('1 of 5 shown')
    expect(await page.locator('.place:visible').count()).toBe(1)
    await page.getByRole('button', { name: 'Show all' }).click()
    await expect.poll(() => shownNames(page)).toHaveLength(5)
    await page.locator('[name=rule]').selectOption('headroom')
    expect(await shownNames(page)).toHaveLength(2)
    await page.getByRole('button', { name: 'Show all' }).click()
    await page.getByText('More', { exact: true }).click()
    await page.locator('[name=deliverable]').selectOption('print')
    expect(await shownNames(page)).toHaveLength(4)
    await page.getByRole('button', { name: 'Show all' }).click()
    // In capital letters and in the other Unicode form.
    await page.getByLabel('Person or file').fill('A\u030aSA WEB')
    expect(await shownNames(page)).toEqual(['web/Lindqvist-Åsa_00125.jpg'])
    await page.close()
  })

  test('sorts by name and by a measure', async () => {
    const { page } = await open('report.html')
    await page.getByText('More', { exact: true }).click()
    await page.locator('[name=sort]').selectOption('name')
    // As everywhere: by code points.
    expect(await shownNames(page)).toEqual(REPORT.files.map(({ file }) => file))
    await page.locator('[name=sort]').selectOption('headroom')
    expect((await shownNames(page)).slice(0, 2)).toEqual([
      'print/Lindqvist-Åsa_00125.jpg',
      'print/Sato-Rin_00127.jpg',
    ])
    // What has no number comes last.
    expect((await shownNames(page)).at(-1)).toBe('print/Moreau-Luc_00126.jpg')
    await page.close()
  })

  test('the fragment keeps the state, and leads to a card even when that is filtered out', async () => {
    const { page } = await open('report.html')
    await page.locator('[name=standing]').selectOption('fail')
    await page.getByText('More', { exact: true }).click()
    await page.locator('[name=sort]').selectOption('name')
    const kept = page.url()
    expect(new URL(kept).hash).toBe('#standing=fail&sort=name')
    const names = await shownNames(page)
    await page.goto('about:blank')
    await page.goto(kept)
    expect(await shownNames(page)).toEqual(names)
    expect(await page.locator('[name=standing]').inputValue()).toBe('fail')
    const id = await page.locator('.card', { hasText: 'Okafor-Ada_00124' }).getAttribute('id')
    await page.evaluate(`location.hash = ${JSON.stringify(id)}`)
    await expect.poll(() => page.locator(`#${id}`).isVisible()).toBe(true)
    expect(await page.locator(`#${id}`).evaluate((card) => card.matches(':target'))).toBe(true)
    // A fragment that means nothing does nothing.
    for (const hash of ['#standing=nonsense', '#%', '#nowhere', '#rule=<img>']) {
      await page.goto('about:blank')
      await page.goto(url('report.html') + hash)
      expect(await shownNames(page), hash).toHaveLength(5)
    }
    await page.close()
  })

  test('everything is reached by the keyboard; arrows walk the cards and the set', async () => {
    const { page } = await open('report.html')
    await page.locator('.filters summary').click()
    await page.evaluate('document.activeElement.blur(); scrollTo(0, 0)')
    const reached = new Set<unknown>()
    for (let i = 0; i < 80; i++) {
      await page.keyboard.press('Tab')
      reached.add(
        await page.evaluate(
          'document.activeElement.name || document.activeElement.getAttribute("href") || document.activeElement.tagName',
        ),
      )
    }
    for (const wanted of [
      'standing',
      'rule',
      'deliverable',
      'words',
      'sort',
      'plain',
      '#portrait-1',
      '#portrait-5',
      'SUMMARY',
    ])
      expect(reached, String(wanted)).toContain(wanted)
    await page.locator('#portrait-1 h3 a').focus()
    const focused = () => page.evaluate('document.activeElement.getAttribute("href")')
    await page.keyboard.press('ArrowRight')
    expect(await focused()).toBe('#portrait-2')
    await page.keyboard.press('End')
    expect(await focused()).toBe('#portrait-5')
    await page.keyboard.press('ArrowRight')
    expect(await focused()).toBe('#portrait-5')
    await page.keyboard.press('Home')
    expect(await focused()).toBe('#portrait-1')
    // Of each row of pictures one is a stop, the first that is shown.
    const stops = () => page.locator('.strip [tabindex="0"]').allTextContents()
    expect(await stops()).toHaveLength(2)
    await page.locator('.place').first().focus()
    await page.keyboard.press('End')
    expect(await page.evaluate('document.activeElement.textContent')).toContain('Sato')
    expect((await stops())[0]).toContain('Sato')
    await page.locator('[name=standing]').selectOption('fail')
    expect((await stops())[0]).toContain('Lindqvist')
    await page.close()
  })

  test('the rules at the top show those that miss them', async () => {
    const { page } = await open('report.html')
    await page.getByRole('button', { name: 'Show those that miss headroom' }).click()
    expect(await shownNames(page)).toHaveLength(2)
    expect(await page.locator('[name=rule]').inputValue()).toBe('headroom')
    expect(await page.locator('.place:visible .told').allTextContents()).toEqual(
      expect.arrayContaining([expect.stringContaining('headroom')]),
    )
    await page.close()
  })

  test('the filters stay in sight and hide nothing that is focused', async () => {
    const { page } = await open('report.html')
    await page.setViewportSize({ width: 390, height: 844 })
    for (const id of ['portrait-5', 'sign-off']) {
      await page.evaluate(`location.hash = '#${id}'`)
      await page.waitForTimeout(300)
      const bar = await page.locator('.filters').boundingBox()
      const target = await page.locator(`#${id}`).boundingBox()
      expect(bar?.y, id).toBe(0)
      // WCAG 2.2, 2.4.11 Focus Not Obscured.
      expect(target?.y ?? 0, id).toBeGreaterThanOrEqual((bar?.height ?? 0) - 1)
    }
    await page.close()
  })

  test('without scripts every card is shown and no dead form', async () => {
    const { page } = await open('report.html', plainBrowser)
    expect(await page.locator('.card:visible').count()).toBe(5)
    expect(await page.locator('form').isVisible()).toBe(false)
    expect(await page.getByRole('button').count()).toBe(0)
    expect(await page.locator('.portrait image').count()).toBe(4)
    await page.close()
  })

  test.each(['A4', 'Letter'])(
    'prints to %s: the set first, then the cards, the lines to sign last',
    async (format) => {
      const { page } = await open('report.html')
      await page.locator('[name=standing]').selectOption('fail')
      await page.getByRole('button', { name: 'Show all' }).click()
      const pdf = await page.pdf({ format })
      expect(pdf.subarray(0, 5).toString()).toBe('%PDF-')
      // PDF 1.7 (ISO 32000-1), 7.7.3.3: one object of type Page a sheet.
      expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length).toBeGreaterThanOrEqual(2)
      await page.emulateMedia({ media: 'print' })
      for (const line of ['Name', 'Date', 'Signature'])
        await expect.poll(() => page.getByText(line, { exact: true }).first().isVisible()).toBe(true)
      expect(await page.locator('form').isVisible()).toBe(false)
      expect(await page.getByText('SHA-256').first().isVisible()).toBe(true)
      // Paper is white, whatever the reader's screen is.
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' })
      expect(
        await page
          .locator('.sign-off')
          .evaluate((one) => one.ownerDocument.defaultView?.getComputedStyle(one).backgroundColor),
      ).toBe('rgb(255, 255, 255)')
      await page.close()
    },
  )

  test('lines and boxes sit where the JSON says, to the pixel', async () => {
    const box = { x: 0.3, y: 0.2, width: 0.4, height: 0.5 }
    const drawn = reportOn([
      {
        file: 'a.jpg',
        name: { deliverable: 'print' },
        measured: {
          widthPx: 2000,
          heightPx: 2500,
          ...head({ headroomPct: 12.5, eyeLinePct: 40, offCenterPct: 10, chin: { x: 0.5, y: 0.75 } }),
          ...face({ box }),
        },
      },
    ])
    const [file] = drawn.files
    if (!file) throw new Error('no file')
    const crop = { leftPx: 200, topPx: 150, widthPx: 1600, heightPx: 2000 }
    const outcomes = file.outcomes.map((one) => ({ ...one, crop }))
    await writeFile(join(folder, 'drawn.html'), await pageOn({ ...drawn, files: [{ ...file, outcomes }] }))
    const { page } = await open('drawn.html')
    // Names would lie on lines; only lines count here.
    await page.evaluate('document.querySelectorAll(".overlay text").forEach((one) => one.remove())')
    // On whole pixels of the screen, a unit of the drawing each.
    const portrait = page.locator('svg.portrait')
    await portrait.evaluate((svg) => {
      Object.assign(svg.style, { position: 'fixed', left: '0', top: '0', width: '320px', height: '400px' })
      svg.ownerDocument.body.replaceChildren(svg)
    })
    const shot = await page.screenshot({ clip: { x: 0, y: 0, width: 320, height: 400 } })
    const { data, info } = await sharp(shot).removeAlpha().raw().toBuffer({ resolveWithObject: true })
    const at = (x: number, y: number) => {
      const i = (Math.round(y * info.height) * info.width + Math.round(x * info.width)) * 3
      return [data[i] ?? 0, data[i + 1] ?? 0, data[i + 2] ?? 0] as const
    }
    /** Middle of the pixels that are no longer gray, along a line through the picture; as a share. */
    const found = (from: readonly [number, number], to: readonly [number, number]) => {
      const steps = 4000
      const hits: number[] = []
      for (let i = 0; i <= steps; i++) {
        const t = i / steps
        const [r, g, b] = at(
          from[0] + (to[0] - from[0]) * t,
          Math.min(1 - 1 / info.height, from[1] + (to[1] - from[1]) * t),
        )
        if (Math.max(Math.abs(r - 128), Math.abs(g - 128), Math.abs(b - 128)) > 12) hits.push(t)
      }
      expect(hits.length, `something drawn between ${from} and ${to}`).toBeGreaterThan(0)
      // A line and its halo, and no more than that, on some 20 px.
      expect((hits.at(-1) ?? 1) - (hits[0] ?? 0), `a line between ${from} and ${to}`).toBeLessThan(0.35)
      return (hits[0] ?? 0) * 0.5 + (hits.at(-1) ?? 0) * 0.5
    }
    // Along a column beside every box; a part of it around each line. One pixel of the screen either way.
    const column = (y: number, x = 0.05) => y - 0.03 + 0.06 * found([x, y - 0.03], [x, y + 0.03])
    const row = (x: number, y: number) => x - 0.03 + 0.06 * found([x - 0.03, y], [x + 0.03, y])
    const onePx = 1.01 / info.height
    expect(Math.abs(column(0.125) - 0.125), 'crown').toBeLessThan(onePx)
    expect(Math.abs(column(0.4) - 0.4), 'eye line').toBeLessThan(onePx)
    expect(Math.abs(column(0.75) - 0.75), 'chin').toBeLessThan(onePx)
    expect(Math.abs(row(0.6, 0.95) - 0.6), 'middle of the eyes').toBeLessThan(1.01 / info.width)
    expect(Math.abs(row(0.3, 0.5) - 0.3), 'face, left').toBeLessThan(1.01 / info.width)
    expect(Math.abs(column(0.7, 0.45) - 0.7), 'face, bottom').toBeLessThan(onePx)
    expect(Math.abs(row(0.1, 0.5) - 0.1), 'crop, left').toBeLessThan(1.01 / info.width)
    expect(Math.abs(column(0.86, 0.4) - 0.86), 'crop, bottom').toBeLessThan(onePx)
    // The range asked of the headroom, 6 to 12 %, on the left edge: inside it is no longer gray, outside it is.
    const gray = (y: number) => Math.abs(at(0.008, y)[0] - 128) <= 12
    expect([0.045, 0.07, 0.11, 0.145].map(gray)).toEqual([true, false, false, true])
    await page.close()
  })

  test('hostile names and metadata run no script and stay text', async () => {
    const attacks = [
      '<script>globalThis.ran = 1</script>',
      '"><img src=x onerror="globalThis.ran = 1">',
      "' onmouseover='globalThis.ran = 1",
      '</style><script>globalThis.ran = 1</script>',
      '</script><svg onload=globalThis.ran=1>',
      'javascript:globalThis.ran=1',
      ['$', '{globalThis.ran = 1}'].join(''),
      '<!-- ',
      '&lt;b&gt;\u0000\u001b[31m\u202egpj',
      'a\u2028b\ud83d',
    ]
    const hostile = reportOn(
      attacks.map((text) => ({
        file: `${text}.jpg`,
        name: { deliverable: 'web', fields: { family: text }, problems: [] },
        measured: { color: { space: 'rgb' as const, profile: 'other' as const, profileName: text } },
      })),
      { ...SPEC, brand: attacks.join(' '), file: attacks.join(' ') },
      {
        waivers: attacks.map((text) => ({
          line: 1,
          rule: 'headroom',
          files: [text],
          people: [],
          reason: text,
          approvedBy: text,
          until: '2027-01-01',
          state: 'used' as const,
        })),
        delivery: {
          outcomes: [
            {
              rule: 'roster',
              advisory: false,
              verdict: 'fail',
              measured: attacks[0] ?? '',
              expected: attacks[1] ?? '',
              reason: attacks.join(' '),
              fix: attacks.join(' '),
              people: attacks,
              files: attacks,
            },
          ],
          matrix: {
            deliverables: attacks,
            rows: attacks.map((person) => ({
              person,
              listed: false,
              absent: person,
              perhaps: null,
              cells: attacks.map((file) => ({ state: 'double' as const, files: [`${file}.jpg`, file] })),
            })),
            unplaced: attacks,
          },
        },
      },
    )
    const pictures = await picturesFor(hostile)
    await writeFile(
      join(folder, 'hostile.html'),
      htmlReport(hostile, { pictures, at: AT, name: 'hostile.html' }).index,
    )
    const { page, asked, said } = await open('hostile.html')
    await page.mouse.move(200, 200)
    await page.getByLabel('Person or file').fill('<script>')
    expect(await shownNames(page)).toEqual(
      [
        '</style><script>globalThis.ran = 1</script>.jpg',
        '<script>globalThis.ran = 1</script>.jpg',
      ].toSorted(),
    )
    expect(await page.evaluate('globalThis.ran')).toBeUndefined()
    expect({ asked, said }).toEqual({ asked: [url('hostile.html')], said: [] })
    const tags = await page.evaluate(
      '[...new Set([...document.body.querySelectorAll("*")].map((one) => one.tagName))]',
    )
    expect(tags).not.toContain('IFRAME')
    expect(
      await page.evaluate(
        'document.scripts.length + document.querySelectorAll("[onerror], [onload], [onmouseover], [style], iframe").length',
      ),
    ).toBe(1)
    expect(await page.evaluate('[...document.links].every(({ protocol }) => protocol === "file:")')).toBe(
      true,
    )
    await page.close()
  })

  test('200 portraits are filtered with one change for each card and each of its marks', async () => {
    const many = manyPortraits(200)
    const { index, pages } = htmlReport(many, {
      pictures: await picturesFor(many),
      at: AT,
      name: 'many.html',
    })
    expect(pages.size).toBe(0)
    await writeFile(join(folder, 'many.html'), index)
    const { page } = await open('many.html')
    expect(await page.locator('.card').count()).toBe(200)
    const changed = await page.evaluate(
      `(() => { const field = document.querySelector('form.filters').elements.standing
        const observer = new MutationObserver(() => {})
        observer.observe(document.body, { subtree: true, childList: true, attributes: true })
        field.value = 'fail'; field.dispatchEvent(new Event('input', { bubbles: true }))
        return observer.takeRecords().map(({ type, attributeName }) => attributeName ?? type) })()`,
    )
    const { length } = await page.locator('[data-for]').all()
    expect(changed).toContain('hidden')
    // Cards that stay are not touched, and none is moved; the number of those shown is the one text that changes.
    expect((changed as string[]).filter((one) => one === 'childList').length).toBeLessThanOrEqual(1)
    expect((changed as string[]).length).toBeLessThanOrEqual(200 + length + 1)
    await page.close()
  })

  test('above that it is an index and pages that lead to each other', async () => {
    const many = manyPortraits(7)
    const { index, pages } = htmlReport(many, {
      pictures: await picturesFor(many),
      at: AT,
      name: 'a & b.html',
      perPage: 3,
    })
    expect([...pages.keys()]).toEqual(['a & b-1.html', 'a & b-2.html', 'a & b-3.html'])
    await writeFile(join(folder, 'a & b.html'), index)
    for (const [name, text] of pages) await writeFile(join(folder, name), text)
    const { page, said } = await open('a%20&%20b.html'.replace('%20', ' ').replace('%20', ' '))
    expect(await page.locator('.card').count()).toBe(7)
    await page.getByLabel('Person or file').fill('00005')
    await page.locator('.card:not([hidden]) h3 a').click()
    await page.waitForURL(/-\d\.html#portrait-\d$/)
    expect(await page.locator('.card:target h3').textContent()).toBe('print/Sitter_00005.jpg')
    await page.getByRole('link', { name: 'Page 3' }).click()
    expect(await page.locator('.card').count()).toBe(1)
    await page.getByRole('link', { name: 'Of 7 portraits' }).click()
    expect(await page.locator('.card').count()).toBe(7)
    expect(said).toEqual([])
    await page.close()
  })
})

function manyPortraits(n: number): Report {
  return reportOn(
    Array.from({ length: n }, (_, i) => ({
      file: `print/Sitter_${String(i).padStart(5, '0')}.jpg`,
      name: { deliverable: 'print' },
      measured: { sha256: GOOD.sha256, ...head({ headroomPct: 5 + (i % 8), eyeLinePct: 35 + (i % 5) }) },
    })),
  )
}

test('the page says the same each time', async () => {
  expect(await pageOn(REPORT)).toBe(await pageOn(REPORT))
})

// 50 kB of a portrait's 60 kB are for its pictures (tests/report/html/pictures.test.ts).
test('a portrait takes under 10 kB beside its pictures', () => {
  const bad = { headroomPct: 1, eyeLinePct: 90 }
  const many = reportOn(
    Array.from({ length: 50 }, (_, i) => ({
      file: `print/Sitter_${i}.jpg`,
      measured: { ...head(bad), ...face({ tiltDeg: 9 }) },
    })),
  )
  const { index } = htmlReport(many, { pictures: new Map(), at: AT, name: 'report.html' })
  expect(Buffer.byteLength(index) / 50).toBeLessThan(10_000)
})

test('the matrix tells each state in words and leads to the cards', async () => {
  const text = await pageOn(REPORT)
  const table = /<table class="matrix">.*?<\/table>/s.exec(text)?.[0] ?? ''
  for (const word of [
    'missing',
    'not expected',
    'fails',
    'passes',
    'double: ',
    'unsure',
    'not on the roster',
    'on leave',
  ])
    expect(table).toContain(word)
  const links = [...table.matchAll(/href="#(portrait-\d)"/g)].map(([, id]) => id)
  expect(links).toHaveLength(5)
  for (const id of links) expect(text).toContain(`<article class="card" id="${id}"`)
  expect(text).toContain('Exception</b> approved by')
})

test('a page opens with the set and ends with the sign-off; it tells no folder of the machine', async () => {
  const text = await pageOn({ ...REPORT, spec: { ...REPORT.spec, file: '/home/studio/osprey/brand.yaml' } })
  const headings = [...text.matchAll(/<h2 id="([\w-]+)"/g)].map(([, id]) => id)
  expect(headings).toEqual(['missed', 'set', 'whole', 'all', 'spread', 'exceptions', 'sign-off'])
  // Heads and sentences write sizes in one way.
  expect(text).toContain('· 2400 x 3000 px')
  expect(text).not.toContain('×')
  expect(text).toContain('(<bdi>brand.yaml</bdi>)')
  expect(text).not.toContain('studio')
  expect(await pageOn({ ...REPORT, spec: { ...REPORT.spec, file: 'C:\\studio\\brand.yaml' } })).not.toContain(
    'studio',
  )
})

test('what fails is written on the pictures, also where there is none', async () => {
  const text = await pageOn(REPORT)
  const places = [...text.matchAll(/<a class="place".*?<\/a>/gs)].map(([place]) =>
    place.replace(/<[^>]*>/g, ' '),
  )
  expect(places).toHaveLength(REPORT.files.length)
  const told = (name: string) => places.find((place) => place.includes(name))?.replace(/\s+/g, ' ')
  expect(told('Moreau')).toContain('Fails: intact')
  expect(told('Sato')).toContain('Unsure: headroom')
  expect(told('Okafor')).toMatch(/Passes: *Okafor/)
})

test('a report on nothing says so', async () => {
  const text = await pageOn(reportOn([]))
  expect(text).toContain('No portrait was judged.')
})
