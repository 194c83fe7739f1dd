import { mkdir } from 'node:fs/promises'
import { networkInterfaces } from 'node:os'
import { join, resolve } from 'node:path'
import { Command as Program } from 'commander'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { type ReadStandard, readStandard } from '../checking/standard.ts'
import { UsageError } from '../checking/usage-error.ts'
import { causeOf } from '../files/cause.ts'
import { rosterSetting } from '../people/roster-setting.ts'
import { forTerminal } from '../report/safe.ts'
import { takeSession } from '../session-log/lock.ts'
import { frameLine } from '../watch/lines.ts'
import { Pages } from '../watch/page/pages.ts'
import type { Place } from '../watch/place.ts'
import { RosterFile } from '../watch/roster-file.ts'
import { codeToScan, networkAddress, SHARING_WARNING } from '../watch/share.ts'
import { tellForgotten } from '../watch/tell-forgotten.ts'
import { Watch } from '../watch/watch.ts'
import { folderAt } from './page/folder-at.ts'
import { LOOPBACK, portOf, serving, stopped } from './page/serving.ts'
import { parse } from './parse.ts'

interface Options {
  readonly spec: string
  readonly roster?: string
  readonly gallery?: string
  readonly session?: string
  readonly port: string
  readonly bell: boolean
  readonly share: boolean
  readonly forget?: string
}

/** Where a session is kept, in the folder that it is of: hidden, and moved along with it. */
const SESSION_FOLDER = '.portrait-gate'

/**
 * `watch folder`: judges frames as they arrive, until it is stopped.
 * @throws UsageError when the folder, the spec or the session can't be read
 */
export async function watch(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate watch')
    .description('Judges every frame as it arrives in a folder, and shows a page for the set.')
    .argument('<folder>', 'where frames arrive: by cable, from a card, or by a sync program')
    .option('--spec <file>', 'the brand spec', DEFAULT_SPEC)
    .option('--roster <file>', 'the list of people, a CSV file; replaces the one that the spec names')
    .option(
      '--gallery <path>',
      'published portraits that the light is to match: a folder, or a file made by gallery',
    )
    .option(
      '--session <folder>',
      `keep the session in this folder, not in ${SESSION_FOLDER} of the watched one`,
    )
    .option('--port <number>', 'port of the page; any that is free unless told', '0')
    .option('--bell', "ring the terminal's bell when a frame is to be changed", false)
    .option('--share', 'let tablets and phones in the same network open the page too', false)
    .option('--forget <sitter>', 'take somebody out of the session, and end')
  const parsed = parse<Options>(program, args, host)
  if ('exit' in parsed) return parsed.exit
  const { options } = parsed
  const port = portOf(options.port)
  const folder = await folderAt(String(parsed.paths), host)
  const read = await readStandard({ ...options, cache: false, rehash: false }, host)
  if (!read) return EXIT.trouble
  const sessionFolder =
    options.session === undefined ? join(folder, SESSION_FOLDER) : resolve(host.cwd, options.session)
  const giveBack = await taken(sessionFolder)
  const place: Place = { folder, sessionFolder, read, roster: rosterFileOf(read, host), host }
  try {
    if (options.forget !== undefined) return await tellForgotten(options.forget, place)
    return await run(place, { ...options, port })
  } finally {
    await giveBack()
  }
}

async function run(
  { folder, sessionFolder, read: { standard }, roster, host }: Place,
  { bell, share, port }: Pick<Options, 'bell' | 'share'> & { readonly port: number },
): Promise<number> {
  const say = (sentence: string) => host.stdout.write(`${forTerminal(sentence)}\n`)
  const network = share ? networkAddress(networkInterfaces()) : null
  if (share && network === null)
    throw new UsageError(
      'This machine is in no network, so that nothing can be shared. Connect it, or leave out --share.',
    )
  let pages: Pages | null = null
  const watch = await Watch.start({
    ...{ folder, sessionFolder, standard, roster, signal: host.signal },
    workers: host.workers,
    onChange: () => pages?.changed(),
    onFrame: (seen) => {
      say(frameLine(seen))
      if (bell && seen.verdict === 'fail') host.stdout.write('\u0007')
    },
    onTold: say,
  })
  pages = new Pages(watch)
  try {
    const addresses = [LOOPBACK, ...(network === null ? [] : [network])]
    const server = await serving({ addresses, port, handler: pages.handler })
    if (network !== null) {
      const url = server.urlAt(network)
      host.stdout.write(`${codeToScan(url)}\n`)
      say(`For tablets and phones in the same network: ${url}`)
      say(SHARING_WARNING)
    }
    say(`The page for the set: ${server.urlAt(LOOPBACK)}`)
    say('Stop with Ctrl+C; the session goes on when watch is run again.')
    await stopped(host.signal)
    pages.close()
    await server.close()
    return EXIT.fine
  } finally {
    await watch.close()
  }
}

async function taken(sessionFolder: string): Promise<() => Promise<void>> {
  try {
    await mkdir(sessionFolder, { recursive: true, mode: 0o700 })
    const giveBack = await takeSession(sessionFolder)
    if (giveBack) return giveBack
  } catch (error) {
    throw new UsageError(
      `The session can't be kept in ${sessionFolder} (${causeOf(error)}). Name a folder that you may write to with --session.`,
    )
  }
  throw new UsageError(`The session in ${sessionFolder} is in use by another watch. End that one first.`)
}

function rosterFileOf(
  { standard: { spec }, sources: { roster } }: ReadStandard,
  { cwd }: Host,
): RosterFile | null {
  const reading = { naming: spec.naming, headers: rosterSetting(spec.settings.roster).columns }
  return roster && new RosterFile(resolve(cwd, roster.file), reading)
}
