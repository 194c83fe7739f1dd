import { happens, pick, type Random } from '../chance.ts'

/** How the action is run on a change. */
export interface Setting {
  readonly inputs: Readonly<Record<string, string>>
  readonly event:
    | 'pull_request'
    | 'head'
    | 'pull_request_review'
    | 'merge_group'
    | 'push'
    | 'workflow_dispatch'
    | 'issue_comment'
  readonly filter: string | null
  readonly submodules: boolean
  /** Whether the delivery is judged in two parts, which are then put together. */
  readonly divided: boolean
}

const FLAGS = ['true', 'false', '']

export function randomSetting(random: Random, paths: string): Setting {
  const divided = happens(random, 0.15)
  const event = pick(random, [
    ...(['pull_request', 'pull_request', 'pull_request', 'head', 'pull_request_review'] as const),
    ...(['merge_group', 'push', 'workflow_dispatch', 'issue_comment'] as const),
  ])
  return {
    inputs: {
      paths,
      'only-changed': divided ? 'false' : pick(random, ['true', 'true', 'true', 'false', '']),
      'spec-from-base': pick(random, FLAGS),
      strict: pick(random, FLAGS),
      'report-folder': pick(random, ['', 'portrait-report', 'out/reports']),
      'cache-folder': pick(random, ['', 'portrait-cache']),
    },
    event,
    filter: happens(random, 0.1) ? 'blob:none' : null,
    submodules: happens(random, 0.85),
    divided,
  }
}

/** Whether the spec of the base is in force. */
export function judgesByBase({ inputs, event }: Setting): boolean {
  return inputs['spec-from-base'] !== 'false' && event !== 'workflow_dispatch'
}

/** Whether only what differs from a base is judged. */
export function comparesWithBase({ inputs, event, divided }: Setting): boolean {
  return inputs['only-changed'] === 'true' && event !== 'workflow_dispatch' && !divided
}
