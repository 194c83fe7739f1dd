import { execFile } from 'node:child_process'
import { join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { promisify } from 'node:util'
import { expect, test } from 'vitest'
import { built } from '../pool/built.ts'

const run = promisify(execFile)

const PORTRAIT = resolve('examples/osprey-lane/delivery-clean/print/Nair-Priya_15388.jpg')
const TIMES = 12

/** How often a thread collects its whole heap while it measures a portrait again and again. */
async function collections(folder: string, setting: 'collectSeldom' | 'collectAsUsual'): Promise<number> {
  const module = (path: string) => JSON.stringify(pathToFileURL(join(folder, 'src', path)).href)
  const script = `
    import { PerformanceObserver, constants } from 'node:perf_hooks'
    import { measure } from ${module('measure/measure.js')}
    import { GROUPS } from ${module('measure/schema/measurement-groups.js')}
    import { ${setting} } from ${module('pool/garbage.js')}
    ${setting}()
    let count = 0
    const observer = new PerformanceObserver((list) => {
      for (const { detail } of list.getEntries()) if (detail.kind === constants.NODE_PERFORMANCE_GC_MAJOR) count++
    })
    observer.observe({ entryTypes: ['gc'] })
    for (let i = 0; i < ${TIMES}; i++) await measure({ path: ${JSON.stringify(PORTRAIT)}, file: 'Nair.jpg' }, GROUPS)
    await new Promise((done) => setTimeout(done, 50))
    console.log(count)`
  const { stdout } = await run(process.execPath, ['--input-type=module', '--eval', script])
  return Number(stdout)
}

test('a thread that measures collects its whole heap less often', async () => {
  const folder = await built()
  const seldom = await collections(folder, 'collectSeldom')
  const usual = await collections(folder, 'collectAsUsual')
  expect(seldom).toBeGreaterThan(0)
  expect(seldom).toBeLessThan(0.75 * usual)
})
