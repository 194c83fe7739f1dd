import { realpath } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { UsageError } from '../../checking/usage-error.ts'

/**
 * What a workflow's runner tells a step through its environment (GitHub Docs, "Variables reference", default
 * environment variables).
 */
export interface Runner {
  /** Absolute path, free of links, of the folder that the repository was checked out into. */
  readonly workspace: string
  /** Absolute path, free of links, of a folder that is emptied after the job. */
  readonly temp: string
  /** Such as `pull_request`. */
  readonly eventName: string
  /** File with the event as JSON; null when there is none. */
  readonly eventPath: string | null
  /** The commit that started the workflow. */
  readonly sha: string | null
  /** What tells this run of a workflow from all others, its repeated tries included; null outside of one. */
  readonly run: string | null
  /** Files that take the step's outputs and its summary; null when they are not wanted. */
  readonly outputFile: string | null
  readonly summaryFile: string | null
}

/** @throws UsageError when the workspace or the temporary folder is not there */
export async function readRunner(
  env: Readonly<Record<string, string | undefined>>,
  cwd: () => string,
): Promise<Runner> {
  const given = (name: string) => env[name] || null
  const workspace = await realFolder(
    given('GITHUB_WORKSPACE') ?? cwd(),
    'where the repository should be; add a checkout step before this one.',
  )
  const temp = await realFolder(
    given('RUNNER_TEMP') ?? tmpdir(),
    'which RUNNER_TEMP names for temporary files; the runner should make it.',
  )
  const [id, repository] = [given('GITHUB_RUN_ID'), given('GITHUB_REPOSITORY')]
  return {
    workspace,
    temp,
    eventName: given('GITHUB_EVENT_NAME') ?? '',
    eventPath: given('GITHUB_EVENT_PATH'),
    sha: given('GITHUB_SHA'),
    run: id && `${repository ?? ''}/${id}`,
    outputFile: given('GITHUB_OUTPUT'),
    summaryFile: given('GITHUB_STEP_SUMMARY'),
  }
}

async function realFolder(folder: string, what: string): Promise<string> {
  try {
    return await realpath(folder)
  } catch {
    throw new UsageError(`There is no folder ${folder}, ${what}`)
  }
}
