import { execFile } from 'node:child_process'
import { cp, mkdir, mkdtemp, readdir, readFile, rm } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'
import { commonJs } from './common-js.ts'
import { writeInto } from './write.ts'

const run = promisify(execFile)

const EXAMPLE = join('examples', 'osprey-lane')
// Portraits of both deliverables.
const PORTRAITS = ['print/Nair-Priya_15388.jpg', 'web/Nair-Priya_15388.jpg', 'web/Haile-Tewodros_12450.jpg']

/**
 * What V8 makes of the package's code while it checks some portraits, for the main thread and for workers, by path. It serves this version of V8
 * on this kind of machine; any other compiles as usual. No two runs give the same bytes, so that a release, which anybody can make again, is without. Run in the
 * repository's root.
 * @param contents the package by path
 */
export async function compiledCode(
  contents: ReadonlyMap<string, Uint8Array | string>,
): Promise<ReadonlyMap<string, Uint8Array>> {
  await mkdir('.cache', { recursive: true })
  // Below the repository, where the picture library is found.
  const folder = resolve(await mkdtemp(join('.cache', 'compiled-')))
  try {
    const [bundle, delivery, compiled] = [join(folder, 'bundle'), join(folder, 'delivery'), 'compiled']
    const record = join(folder, 'record.cjs')
    await writeInto(folder, new Map([['record.cjs', await commonJs('scripts/package/record.cts')]]))
    await writeInto(bundle, contents)
    await mkdir(join(bundle, compiled))
    for (const file of PORTRAITS) await cp(join(EXAMPLE, 'delivery-clean', file), join(delivery, file))
    const check = (role: string, ...options: readonly string[]) =>
      run(
        process.execPath,
        [
          ...['--require', record, join(bundle, 'start.cjs'), 'check', delivery, ...options],
          ...['--spec', join(EXAMPLE, 'brand.yaml'), '--partial'],
        ],
        {
          env: { ...process.env, RECORDED_PACKAGE: bundle, RECORDED_ROLE: role, XDG_CACHE_HOME: folder },
        },
      ).catch((error) => {
        // Some portrait may fail: code 1 is a report all the same.
        if (error.code !== 1) throw error
      })
    // Nothing known, and then all; each adds to what the one before has compiled.
    await check('main')
    await check('main')
    await check('worker', '--no-cache')
    const made = await readdir(join(bundle, compiled))
    return new Map(
      await Promise.all(
        made.map(
          async (name): Promise<[string, Buffer]> => [
            join(compiled, name),
            await readFile(join(bundle, compiled, name)),
          ],
        ),
      ),
    )
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}
