import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { EXIT, type Host, type Output } from '../checking/host.ts'
import type { Format } from '../commands/formats.ts'
import type { Sink } from '../commands/outputs.ts'
import { writeReport } from '../commands/write-report.ts'
import { THIS_PROCESS } from '../files/this-process.ts'
import { sealDelivery } from '../hand-over/seal.ts'
import { markdown } from '../report/markdown.ts'
import { refuseRights } from './git/base-commit.ts'
import { type Checkout, readCheckout } from './git/checkout.ts'
import { eventValue, readEvent } from './job/event.ts'
import { fromWorkspace } from './job/from-workspace.ts'
import { judgeDelivery } from './judge-delivery.ts'
import { judgeParts } from './judge-parts.ts'
import { judgeReceived } from './judge-received.ts'
import { cachePlace, openReportFolder } from './own-folders.ts'
import { annotations } from './telling/annotations.ts'
import { rosterLines } from './telling/roster-lines.ts'
import type { Told } from './telling/told.ts'
import { workflowCommand } from './telling/workflow-command.ts'
import type { Judged, Surroundings, Work } from './work.ts'

/** Name of the sealed delivery in the folder for reports. */
const BAG = 'delivery.zip'

const FACES =
  'The repository is public, and so is every artifact of its workflows: a report that is uploaded shows the faces to everyone. Upload none, or hold the consent of all who are in it.'

/**
 * Judges what the workspace holds, or puts reports on parts of it together.
 * @throws UsageError when the inputs or the checkout are not fit for it
 */
export async function judgeWorkspace(work: Surroundings): Promise<Told> {
  const { runner, env, signal } = work
  refuseRights(runner)
  const checkout = await readCheckout(runner.workspace, env, signal)
  return judgeCheckout(work, checkout).finally(() => checkout?.git.close())
}

async function judgeCheckout(work: Surroundings, checkout: Checkout | null): Promise<Told> {
  const { runner, inputs, env, signal, log, workers } = work
  const { workspace } = runner
  const folder = await openReportFolder(runner, inputs, checkout)
  const cache = await cachePlace(runner, inputs)
  const said: string[] = []
  const stderr: Output = {
    isTTY: false,
    write: (text) => {
      said.push(...text.split('\n').filter((line) => line !== ''))
      log.write(text)
    },
  }
  const host: Host = {
    ...{ cwd: workspace, stdout: log, stderr, env, workers, userCache: null, signal },
    processes: THIS_PROCESS,
  }
  const all = { ...work, checkout, cache }
  const judged = await judgeWork(all, host, said)
  if (!('report' in judged)) return judged
  return told(judged, { ...all, folder }, host).finally(() => judged.close?.())
}

function judgeWork(work: Work, host: Host, said: readonly string[]): Promise<Judged | Told> {
  const { merge, receive } = work.inputs
  if (receive !== null) return judgeReceived(receive, work, host, said)
  return merge.length > 0 ? judgeParts(work, host, said) : judgeDelivery(work, host, said)
}

/** @param folder absolute path of the one for reports */
async function told(
  judged: Judged,
  { runner, inputs, folder }: Work & { readonly folder: string },
  host: Host,
): Promise<Told> {
  const { workspace } = runner
  const isPublic = eventValue(await readEvent(runner), 'repository', 'private') === false
  const { report, at, root, portraits, judgedBy, notes, exit } = judged
  const [json, page, html] = ['report.json', 'report.md', 'report.html'].map((name) =>
    join(folder, name),
  ) as [string, string, string]
  const sinks: Sink<Format>[] = [
    { format: 'json', file: json },
    { format: 'markdown', file: page },
    ...(report.part ? [] : [{ format: 'html' as const, file: html }]),
    { format: 'table', file: null },
  ]
  await writeReport(report, sinks, { at, portraits }, host)
  const bag = inputs.seal && exit === EXIT.fine ? join(folder, BAG) : null
  if (bag !== null) {
    await rm(bag, { force: true })
    await sealDelivery({ report, portraits, at, ...judgedBy }, { output: bag }, host)
  }
  const { verdict, totals } = report
  return {
    annotations: [
      ...annotations(report, {
        ofFile: (file) => fromWorkspace(workspace, join(root, file)),
        ofPerson: await rosterLines(workspace, judgedBy),
      }),
      ...(isPublic ? [workflowCommand('warning', { title: 'Public repository' }, FACES)] : []),
    ],
    notes: isPublic ? [...notes, FACES] : notes,
    page: markdown(report),
    outputs: {
      verdict,
      checked: totals.files,
      failed: totals.fail,
      unsure: totals.unsure,
      'report-json': fromWorkspace(workspace, json) ?? '',
      'report-html': report.part ? '' : (fromWorkspace(workspace, html) ?? ''),
      bag: bag === null ? '' : (fromWorkspace(workspace, bag) ?? ''),
    },
    exit,
  }
}
