import { BaseSequencer, type TestSpecification } from 'vitest/node'

// What takes a minute or more; begun last, one core would wait for it in the end.
const SLOWEST = [
  'tests/accuracy/groups.test.ts',
  'tests/measure/intrusions/intrusions.test.ts',
  'tests/accuracy/accuracy.test.ts',
  'tests/derive/derive-spec.test.ts',
  'tests/likeness/same-picture.test.ts',
]

/** Runs the slowest test files first, the others in the usual order. */
export class SlowestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const usual = await super.sort(files)
    const isSlow = ({ moduleId }: TestSpecification) => SLOWEST.some((slow) => moduleId.endsWith(slow))
    return [...usual.filter(isSlow), ...usual.filter((file) => !isSlow(file))]
  }
}
