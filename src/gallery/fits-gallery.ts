import { Ajv, type ValidateFunction } from 'ajv'
import { GalleryFile } from './gallery-schema.ts'

let isGallery: ValidateFunction<GalleryFile> | undefined

/** Whether data are a gallery file of some version. */
export function fitsGallery(data: unknown): data is GalleryFile {
  isGallery ??= new Ajv().compile<GalleryFile>(GalleryFile)
  return isGallery(data)
}
