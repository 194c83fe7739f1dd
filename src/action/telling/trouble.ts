import { resolve } from 'node:path'
import { EXIT } from '../../checking/host.ts'
import { fromWorkspace } from '../job/from-workspace.ts'
import type { InForce } from '../standard/standard-in-force.ts'
import { standardProblems } from '../standard/standard-problems.ts'
import { problemAnnotations, troubleAnnotation } from './annotations.ts'
import { NO_OUTPUTS, type Told } from './told.ts'

/** Of a run in which nothing could be judged. @param sentences what is wrong */
export function trouble(
  sentences: readonly string[],
  { annotations = [troubleAnnotation(sentences)], exit = EXIT.trouble as number } = {},
): Told {
  const notes = ['Nothing was judged.', ...sentences]
  return { annotations, notes, page: null, outputs: { ...NO_OUTPUTS, verdict: 'error' }, exit }
}

/** Of a delivery that is not whole, or not unchanged. @param bag what is told of it */
export function notAccepted(bag: readonly string[]): Told {
  const outputs = { ...NO_OUTPUTS, verdict: 'fail' as const }
  return { annotations: [troubleAnnotation(bag)], notes: bag, page: null, outputs, exit: EXIT.fails }
}

/**
 * Of a run that was refused: where the spec, the roster or the waivers are at fault, at their lines.
 * @param said what the log has
 */
export async function refused(said: readonly string[], inForce: InForce, workspace: string): Promise<Told> {
  const problems = await standardProblems(inForce.files, inForce.cwd)
  if (problems.length === 0) return trouble(said)
  const locate = (file: string) => fromWorkspace(workspace, resolve(workspace, file))
  return trouble(said, { annotations: problemAnnotations(problems, locate) })
}
