import { execFile } from 'node:child_process'
import { promisify } from 'node:util'

const run = promisify(execFile)

/** An action that a workflow uses, as it is written there. */
export interface Use {
  /** Such as actions/checkout. */
  readonly repository: string
  /** What stands behind the @. */
  readonly commit: string
  /** The tag in the comment behind it; null when there is none. */
  readonly tag: string | null
}

// GitHub Docs, "Workflow syntax", jobs.<job_id>.steps[*].uses: {owner}/{repo}/{path}@{ref}.
const USES = /\buses:\s*([\w.-]+\/[\w.-]+)(?:\/[\w./-]+)?@([\w.-]+)(?:\s+#\s*(\S+))?/g
// Stands for whoever publishes this action.
const PLACEHOLDER = 'OWNER/'

/** The actions of others that a workflow, an action or a page names. */
export function usesIn(text: string): Use[] {
  return [...text.matchAll(USES)]
    .map(([, repository = '', commit = '', tag = null]) => ({ repository, commit, tag }))
    .filter(({ repository }) => !repository.startsWith(PLACEHOLDER))
}

/**
 * What is wrong with a pin; null when the commit is the one that the tag names.
 * @param forge where repositories lie, with no slash at its end
 */
export async function wrongPin({ repository, commit, tag }: Use, forge: string): Promise<string | null> {
  const name = `${repository}@${commit}`
  if (!/^[0-9a-f]{40}$/.test(commit)) return `${name} is no full commit, and so can be moved.`
  if (tag === null) return `${name} does not say which tag it is; write it behind it as a comment.`
  const refs = [`refs/tags/${tag}`, `refs/tags/${tag}^{}`]
  let listed: string
  try {
    listed = (await run('git', ['ls-remote', `${forge}/${repository}`, ...refs])).stdout
  } catch {
    return `${name} could not be looked up: git can't reach ${forge}/${repository}.`
  }
  // Of an annotated tag, the line that ends in ^{} has the commit (git-ls-remote).
  const commits = new Map(listed.split('\n').map((line) => line.split('\t').reverse() as [string, string]))
  const named = commits.get(refs[1] ?? '') ?? commits.get(refs[0] ?? '')
  if (named === undefined) return `${name}: ${repository} has no tag ${tag}.`
  return named === commit ? null : `${name} is not ${tag}, which is ${named}.`
}
