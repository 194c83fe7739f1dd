import { execFileSync } from 'node:child_process'
import { mkdir, mkdtemp, readdir, realpath, rm, rmdir, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { released } from '../../package/released.ts'
import { type CachePlace, type CacheReader, cacheReader, wholeFiles } from './cache-content.ts'
import { happens, type Random } from './chance.ts'
import { environment, runCommand, userCacheOf } from './command.ts'
import type { Victim } from './kills.ts'
import { makeDelivery, type Picture, SPEC, settled } from './small-delivery.ts'

export interface Transcript {
  readonly code: number | null
  readonly stdout: string
  readonly stderr: string
}

/** Runs with a cache on small deliveries, in a folder of its own. */
export class CachedRun {
  /** Of the folder `delivery`. */
  readonly pictures: readonly Picture[]
  readonly release: string
  readonly folder: string

  private constructor(release: string, folder: string, pictures: readonly Picture[]) {
    this.release = release
    this.folder = folder
    this.pictures = pictures
  }

  /** @param name of the temporary folder */
  static async prepare(name: string, count: number, folders: number): Promise<CachedRun> {
    const folder = await realpath(await mkdtemp(join(tmpdir(), `${name}-`)))
    await writeFile(join(folder, 'brand.yaml'), SPEC)
    const pictures = await makeDelivery(join(folder, 'delivery'), count, folders)
    await settled()
    return new CachedRun(await released(), folder, pictures)
  }

  /** Where runs keep what they measure. @param given the folder of --cache, relative; the user's own when absent */
  place(given?: string): CachePlace {
    const user = userCacheOf(this.folder)
    return {
      entries: given === undefined ? join(user, 'entries') : join(this.folder, given),
      index: join(user, 'index'),
    }
  }

  /** Empty, but there, so that it can be watched. */
  async emptied(given?: string): Promise<CachePlace> {
    execFileSync('rm', ['-rf', userCacheOf(this.folder)])
    const place = this.place(given)
    for (const each of Object.values(place)) await mkdir(each, { recursive: true })
    return place
  }

  /** @param through see the command */
  async check(args: readonly string[], through: readonly string[] = []): Promise<Transcript> {
    const ended = await runCommand(this.release, checkArgs(args), { cwd: this.folder, through })
    const { code, stdout, stderr } = ended
    return { code, stdout, stderr }
  }

  victim(args: readonly string[]): Victim {
    return {
      program: process.execPath,
      args: [join(this.release, 'bundle', 'start.cjs'), ...checkArgs(args)],
      cwd: this.folder,
      env: environment(this.folder),
    }
  }

  reader(others: readonly Picture[] = []): Promise<CacheReader> {
    return cacheReader([...this.pictures, ...others])
  }

  remove(): void {
    execFileSync('rm', ['-rf', this.folder])
  }
}

function checkArgs(args: readonly string[]): string[] {
  return ['check', '--format', 'json', ...args]
}

/** Loses half of what is kept, as if it had never been measured, and some of the listings. */
export async function forget({ entries, index }: CachePlace, random: Random): Promise<void> {
  for (const path of await wholeFiles(entries)) if (happens(random, 0.5)) await rm(path)
  for (const path of await wholeFiles(index)) if (happens(random, 0.25)) await rm(path)
  for (const name of await readdir(entries)) await rmdir(join(entries, name)).catch(() => {})
}
