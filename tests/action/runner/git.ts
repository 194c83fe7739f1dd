import { execFile } from 'node:child_process'
import { mkdir, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)
const IDENTITY = { NAME: 'Test', EMAIL: 'test@example.invalid', DATE: '2026-01-01T00:00:00Z' }

/** What `git` prints, in a folder, by {@link environment}. */
export async function git(folder: string, ...args: readonly string[]): Promise<string> {
  return gitEach(folder, args)
}

/**
 * Several in turn, by one shell, up to the first that fails: a process as large as that of the tests takes longer to fork
 * than git takes for its work.
 */
export async function gitEach(folder: string, ...commands: readonly (readonly string[])[]): Promise<string> {
  const quoted = (arg: string) => `'${arg.replaceAll("'", "'\\''")}'`
  const script = commands.map((args) => ['git', ...args.map(quoted)].join(' ')).join(' && ')
  const { stdout } = await run('sh', ['-c', script], { cwd: folder, env: environment() })
  return stdout.trim()
}

/** Of git without the settings of whoever runs the tests. */
export function environment(): NodeJS.ProcessEnv {
  const who = ['AUTHOR', 'COMMITTER'].flatMap((role) =>
    Object.entries(IDENTITY).map(([key, value]) => [`GIT_${role}_${key}`, value]),
  )
  return {
    PATH: process.env.PATH,
    GIT_CONFIG_GLOBAL: '/dev/null',
    GIT_CONFIG_NOSYSTEM: '1',
    // No tidying up after each command.
    GIT_CONFIG_COUNT: '1',
    GIT_CONFIG_KEY_0: 'maintenance.auto',
    GIT_CONFIG_VALUE_0: 'false',
    ...Object.fromEntries(who),
  }
}

/** Lets whoever fetches ask for any commit, and for part of it. */
export const SERVES_ANY = '[uploadpack]\n\tallowAnySHA1InWant = true\n\tallowFilter = true\n'

/**
 * An empty repository as `git init` makes it (gitrepository-layout(5)), written without starting git.
 * @param folder of the repository itself: with a working tree around it when it is called `.git`
 * @param settings as its file of settings has them (git-config(1))
 */
export async function emptyRepository(folder: string, settings: string): Promise<void> {
  for (const name of ['objects', 'refs']) await mkdir(join(folder, name), { recursive: true })
  await writeFile(join(folder, 'HEAD'), 'ref: refs/heads/main\n')
  await writeFile(join(folder, 'config'), settings)
}
