import { forWorkflowMessage, forWorkflowProperty } from '../../report/safe.ts'

/** Properties of an annotation (GitHub Docs, "Workflow commands", setting an error message); line and column from 1. */
export interface AnnotationPlace {
  readonly title?: string
  /** From the top of the repository. */
  readonly file?: string
  readonly line?: number
  readonly col?: number
}

/** A line that makes the runner show an annotation. Properties that are empty or 0 are left out. */
export function workflowCommand(
  name: 'error' | 'warning' | 'notice',
  place: AnnotationPlace,
  message: string,
): string {
  const properties = Object.entries(place)
    .filter(([, value]) => value)
    .map(([key, value]) => `${key}=${forWorkflowProperty(String(value))}`)
  const head = properties.length > 0 ? `${name} ${properties.join(',')}` : name
  return `::${head}::${forWorkflowMessage(message)}`
}
