import { BaseSequencer, type TestSpecification } from 'vitest/node'

/** Begins with what takes the longest, whole sets of cases; begun last, one core would wait for it in the end. */
export class SlowestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const usual = await super.sort(files)
    const isSet = ({ moduleId }: TestSpecification) => /\.set\.test\.ts$|\/long\/accuracy\//.test(moduleId)
    return [...usual.filter(isSet), ...usual.filter((file) => !isSet(file))]
  }
}
