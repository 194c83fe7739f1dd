import { resolve } from 'node:path'
import { EXIT, type Host } from '../commands/host.ts'
import { problemAnnotations, troubleAnnotation } from './annotations.ts'
import { fromWorkspace } from './from-workspace.ts'
import type { Plan } from './plan.ts'
import { standardProblems } from './standard-problems.ts'
import { NO_OUTPUTS, type Told } from './told.ts'

/** Of a run in which nothing could be judged. @param sentences what is wrong */
export function trouble(sentences: readonly string[], annotations = [troubleAnnotation(sentences)]): Told {
  const notes = ['Nothing was judged.', ...sentences]
  return { annotations, notes, page: null, outputs: { ...NO_OUTPUTS, verdict: 'error' }, exit: EXIT.trouble }
}

/**
 * Of a run that a command refused: where the spec, the roster or the waivers are at fault, at their lines.
 * @param said what the command said; @param plan null when parts were merged
 */
export async function refused({
  said,
  plan,
  workspace,
  host,
}: {
  said: readonly string[]
  plan: Plan | null
  workspace: string
  host: Host
}): Promise<Told> {
  const problems = plan ? await standardProblems(plan.files, host) : []
  if (problems.length === 0) return trouble(said)
  const locate = (file: string) => fromWorkspace(workspace, resolve(workspace, file))
  return trouble(said, problemAnnotations(problems, locate))
}
