import { UsageError } from '../../checking/usage-error.ts'
import { causeOf } from '../../files/cause.ts'
import { PageServer } from '../../server/server.ts'

/** This machine, as it calls itself. */
export const LOOPBACK = '127.0.0.1'

/**
 * Serves pages.
 * @throws UsageError when the port is taken
 */
export async function serving(options: Parameters<typeof PageServer.start>[0]): Promise<PageServer> {
  try {
    return await PageServer.start(options)
  } catch (error) {
    throw new UsageError(
      `The page can't be served at port ${options.port} (${causeOf(error)}). Name another with --port, or leave the option out.`,
    )
  }
}

/**
 * The port that an option names; 0 for any that is free.
 * @throws UsageError when it is none
 */
export function portOf(text: string): number {
  const port = Number(text)
  if (/^\d{1,5}$/.test(text) && port <= MOST_PORT) return port
  throw new UsageError(
    `--port ${text} is no port; name a number up to ${MOST_PORT}, or leave the option out.`,
  )
}

const MOST_PORT = 65_535

export function stopped(signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    if (signal.aborted) resolve()
    else signal.addEventListener('abort', () => resolve(), { once: true })
  })
}
