import { resolve } from 'node:path'
import { Command as Program } from 'commander'
import { DEFAULT_SPEC } from '../checking/default-spec.ts'
import { EXIT, type Host } from '../checking/host.ts'
import { Desk } from '../desk/desk.ts'
import { Pages } from '../desk/page/pages.ts'
import { readSigners } from '../hand-over/signers.ts'
import { forTerminal } from '../report/safe.ts'
import { folderAt } from './page/folder-at.ts'
import { LOOPBACK, portOf, serving, stopped } from './page/serving.ts'
import { parse } from './parse.ts'

interface Options {
  readonly spec?: string
  readonly inbox?: string
  readonly signers?: string
  readonly strict: boolean
  readonly port: string
  readonly open: boolean
}

/**
 * `desk`: opens a page on which deliveries are received and signed, until it is ended there or stopped.
 * @throws UsageError when the inbox is no folder, or the port is taken
 */
export async function desk(args: readonly string[], host: Host): Promise<number> {
  const program = new Program('portrait-gate desk')
    .description('Opens a page on this machine to receive deliveries on: drop them, look, answer, sign.')
    .option(
      '--spec <file>',
      `your brand spec (default: ${DEFAULT_SPEC}, where there is one, else the one used last; the page can change it)`,
    )
    .option('--inbox <folder>', 'receive every zip and every folder that is put into this folder, too')
    .option('--signers <file>', 'keys and whose they are (ssh-keygen, allowed signers); any other is refused')
    .option('--strict', 'fail also when a portrait is unsure', false)
    .option('--port <number>', 'port of the page; any that is free unless told', '0')
    .option('--no-open', "print the page's address and leave the browser alone")
  const parsed = parse<Options>(program, args, host)
  if ('exit' in parsed) return parsed.exit
  const { options } = parsed
  const port = portOf(options.port)
  const { spec = null, signers = null, strict } = options
  if (signers !== null) await readSigners(resolve(host.cwd, signers), signers)
  const inbox = options.inbox === undefined ? null : await folderAt(options.inbox, host)
  const ended = new AbortController()
  let pages: Pages | null = null
  const opened = await Desk.start({
    ...{ host, spec, inbox, signers, strict },
    onChange: () => pages?.changed(),
    // What asked for it is answered first.
    onEnd: () => setImmediate(() => ended.abort()),
  })
  try {
    pages = new Pages(opened, host.signal)
    const server = await serving({ addresses: [LOOPBACK], port, handler: pages.handler })
    const say = (sentence: string) => host.stdout.write(`${forTerminal(sentence)}\n`)
    say(`The page to receive deliveries on: ${server.urlAt(LOOPBACK)}`)
    say('If no page opens in your browser, copy that address into it.')
    say('It ends with its button at the bottom, or with Ctrl+C here.')
    if (options.open) host.openPage?.(server.onceAt(LOOPBACK))
    await stopped(AbortSignal.any([host.signal, ended.signal]))
    pages.close()
    await server.close()
    return EXIT.fine
  } finally {
    await opened.close()
  }
}
