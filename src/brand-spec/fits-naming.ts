import { Ajv, type ValidateFunction } from 'ajv'
import type { NamingSetting } from './content.ts'
import { Naming } from './schema.ts'

let isNaming: ValidateFunction<NamingSetting> | undefined

/** Whether what a spec sets under `naming` fits its schema. */
export function fitsNaming(data: unknown): data is NamingSetting {
  isNaming ??= new Ajv({ validateSchema: false }).compile<NamingSetting>(Naming)
  return isNaming(data)
}
