import { BaseSequencer, type TestSpecification } from 'vitest/node'

/**
 * Begins with what starts git for everything it does, while processes are small: what a fork takes grows with the memory of
 * the process, which measuring makes ten times as large. Then what takes the longest, whole sets of cases; begun last, one
 * core would wait for it in the end.
 */
export class SlowestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const usual = await super.sort(files)
    const rank = ({ moduleId }: TestSpecification) => {
      const found = ORDER.findIndex((pattern) => pattern.test(moduleId))
      return found < 0 ? ORDER.length : found
    }
    return usual
      .map((file) => ({ file, at: rank(file) }))
      .sort((a, b) => a.at - b.at)
      .map(({ file }) => file)
  }
}

const ORDER = [/\/(?:tests\/action|long\/fuzz\/git)[/.-]/, /\.set\.test\.ts$|\/long\/accuracy\//]
