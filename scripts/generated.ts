import { readFileSync } from 'node:fs'
import { type TSchema, Type } from '@sinclair/typebox'
import { schemaText } from '../src/brand-spec/schema.ts'
import { Receipt } from '../src/hand-over/receipt.ts'
import { Signed } from '../src/hand-over/signed.ts'
import { Report } from '../src/judge/report.ts'
import { Measurements } from '../src/measure/schema/measurements.ts'
import { Prepared } from '../src/prepare/ledger/prepared.ts'
import { PublishedReport } from '../src/published/finding.ts'
import { ALL_RULES } from '../src/rules/delivery-index.ts'
import { CardReport } from '../src/session/card-report.ts'
import { measuringConstants } from './constants/measuring-code.ts'
import { constantsPage } from './constants/page.ts'
import { kernelModule } from './kernels.ts'
import { licensesPage } from './licenses.ts'
import { bundle } from './package/bundle.ts'
import { packagesOf } from './package/contents.ts'
import { withRooms } from './rooms/picture.ts'
import { readRooms } from './rooms/rooms.ts'
import { rulesPage } from './rules-page.ts'

/** The files that are made from the code, by their path in the repository; run in its root. */
export async function generatedFiles(): Promise<ReadonlyMap<string, string>> {
  const { metafile } = await bundle('bundle')
  return new Map([
    ...generatedSchemas(),
    ['docs/rules.md', rulesPage(ALL_RULES)],
    ['docs/constants.md', constantsPage(measuringConstants().constants)],
    ['DEVELOPERS.md', withRooms(readFileSync('DEVELOPERS.md', 'utf8'), readRooms())],
    ['src/kernels/module.ts', await kernelModule()],
    ['docs/licenses.md', licensesPage(readFileSync('package-lock.json', 'utf8'), packagesOf(metafile))],
  ])
}

const ReportOrNull = Type.Union([
  Type.Unsafe({ type: 'object', description: 'As report.schema.json says.' }),
  Type.Null(),
])

/** The schemas of what the program reads and writes. */
export function generatedSchemas(): ReadonlyMap<string, string> {
  return new Map([
    ['schemas/brand-spec.schema.json', schemaText(ALL_RULES)],
    [
      'schemas/measurements.schema.json',
      schemaOf('Measurements', 'What is measured, one object a file.', Type.Array(Measurements)),
    ],
    [
      'schemas/published.schema.json',
      schemaOf(
        'PublishedReport',
        'What is shown in public, held against what was approved.',
        PublishedReport,
      ),
    ],
    [
      'schemas/receipt.schema.json',
      schemaOf(
        'Receipt',
        'What is known of a delivery that was received.',
        // The report has a schema of its own beside it.
        Type.Composite([Type.Omit(Receipt, ['report']), Type.Object({ report: ReportOrNull })], {
          additionalProperties: false,
        }),
      ),
    ],
    [
      'schemas/sign-off.schema.json',
      schemaOf('SignOff', 'What somebody signed on a delivery that was received.', Signed),
    ],
    [
      'schemas/prepared.schema.json',
      schemaOf('Prepared', 'What portrait-gate prepare has made of masters, file by file.', Prepared),
    ],
    [
      'schemas/frames.schema.json',
      schemaOf('Frames', 'What check --frames has to say of the frames of a card.', CardReport),
    ],
    ['schemas/report.schema.json', schemaOf('Report', 'Everything that a run has to say.', Report)],
  ])
}

function schemaOf(title: string, description: string, schema: TSchema): string {
  const draft = 'http://json-schema.org/draft-07/schema#'
  return `${JSON.stringify({ $schema: draft, title, description, ...schema }, null, 1)}\n`
}
