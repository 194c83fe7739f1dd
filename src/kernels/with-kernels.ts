import { type Kernels, type Memory, ownKernels } from './memory.ts'

// Made when this is loaded: where there is no memory for it, no picture is to blame.
const shared = ownKernels()

/** Calls kernels; what was put into their memory is gone afterwards. */
export function withKernels<T>(call: (kernels: Kernels, memory: Memory) => T): T {
  shared.kernels.giveBack(0)
  return call(shared.kernels, shared.memory)
}
