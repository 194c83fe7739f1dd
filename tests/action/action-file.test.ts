import { readdir, readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { readInputs, variable } from '../../src/action/job/inputs.ts'
import { NO_OUTPUTS } from '../../src/action/telling/told.ts'

// A validator of others, by the JSON Schemas of actions and workflows.
const require = createRequire(import.meta.url)
const { validateAction, validateWorkflow } =
  require('@action-validator/core') as typeof import('@action-validator/core')

const text = await readFile('action.yml', 'utf8')
const action: {
  inputs: Record<string, { description?: string }>
  outputs: Record<string, { description?: string }>
  runs: { steps: { run?: string; shell?: string; env?: Record<string, string> }[] }
} = parse(text)

test('the validator finds faults', () => {
  expect(validateAction(text.replace('using: composite', 'using: magic')).errors).not.toEqual([])
  expect(validateWorkflow('on: push\njobs: { a: { steps: 1 } }\n').errors).not.toEqual([])
})

test('action.yml is valid', () => {
  expect(validateAction(text).errors).toEqual([])
})

test('every input and output is described; every input reaches the script by its variable', () => {
  for (const one of [...Object.values(action.inputs), ...Object.values(action.outputs)])
    expect(one.description?.length).toBeGreaterThan(10)
  const env = Object.assign({}, ...action.runs.steps.map((step) => step.env ?? {}))
  const wired = Object.keys(action.inputs).map((name) => [variable(name), `\${{ inputs.${name} }}`])
  expect(env).toEqual(Object.fromEntries(wired))
  const camel = (name: string) => name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase())
  expect(Object.keys(readInputs({})).sort()).toEqual(Object.keys(action.inputs).map(camel).sort())
  expect(Object.keys(action.outputs)).toEqual(Object.keys(NO_OUTPUTS))
})

test('scripts run in bash and hold no expression', () => {
  for (const { run, shell } of action.runs.steps.filter((step) => step.run !== undefined)) {
    expect(shell).toBe('bash')
    expect(run).not.toContain('${{')
  }
})

const folder = join('examples', 'workflows')
test.each(await readdir(folder))(
  '%s is valid, pinned, and has no more rights than it needs',
  async (name) => {
    const source = await readFile(join(folder, name), 'utf8')
    expect(validateWorkflow(source).errors).toEqual([])
    for (const [, used] of source.matchAll(/uses: (\S+)/g))
      expect(used).toMatch(/^(?:actions\/[\w/-]+@[0-9a-f]{40}|OWNER\/portrait-gate@v\d+\.\d+\.\d+)$/)
    const workflow = parse(source)
    expect(workflow.permissions).toEqual({ contents: 'read' })
    expect(workflow.on).not.toHaveProperty('pull_request_target')
    expect(source.match(/actions\/checkout@/g)?.length ?? 0).toBe(
      source.match(/persist-credentials: false/g)?.length ?? 0,
    )
  },
)

test('a request that is turned to the branch of the gate is judged anew, and none to another', async () => {
  const { on } = parse(await readFile(join(folder, 'pull-request.yml'), 'utf8'))
  // GitHub Docs, "Events that trigger workflows": edited, which is not among the types by default, tells of another base.
  expect(on.pull_request).toMatchObject({ branches: ['main'], types: expect.arrayContaining(['edited']) })
})
