import type { FieldId } from '../../measure/schema/metadata-facts.ts'
import type { ColorSpace } from '../../rules/contract/export-settings.ts'

/** What a written file says of itself. */
export interface Labels {
  /** Values by field; none where there is nothing to say. */
  readonly fields: Readonly<Partial<Record<FieldId, readonly string[]>>>
  /** Name of the frame, which `picked-frame` reads; null to leave it out. */
  readonly frameName: string | null
  readonly colorSpace: ColorSpace
  /** Resolution tag, pixels per inch; null for none. */
  readonly ppi: number | null
}
