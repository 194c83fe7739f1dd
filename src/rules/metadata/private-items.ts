import type { PrivateItem } from '../../measure/schema/metadata-facts.ts'

interface ItemWords {
  /** With its article, to stand after "carries". */
  readonly noun: string
  /**
   * Whether it may also stand in parts that only their maker can read: notes of a camera, data after the picture's end.
   * The others count only where programs look for them.
   */
  readonly mayHide: boolean
}

/** By the ids that the options of `metadata-forbidden` use. */
export const ITEM_WORDS: Readonly<Record<PrivateItem, ItemWords>> = {
  coordinates: { noun: 'coordinates', mayHide: true },
  'place-names': { noun: 'place names', mayHide: true },
  'camera-serial': { noun: 'a camera serial number', mayHide: true },
  'lens-serial': { noun: 'a lens serial number', mayHide: true },
  owner: { noun: "an owner's name", mayHide: true },
  'host-computer': { noun: 'the name of a computer', mayHide: true },
  'camera-model': { noun: 'the camera or lens model', mayHide: false },
  'capture-time': { noun: 'the capture time', mayHide: false },
  software: { noun: 'the name of the software', mayHide: false },
  'original-name': { noun: 'the name or path of the original file', mayHide: false },
  'edit-history': { noun: 'the history of edits', mayHide: false },
  'develop-settings': { noun: 'the develop settings of the raw file', mayHide: false },
  'person-shown': { noun: 'the names of persons', mayHide: true },
  'face-regions': { noun: 'regions drawn around faces', mayHide: true },
  contact: { noun: 'contact details', mayHide: false },
  instructions: { noun: 'special instructions', mayHide: false },
  comments: { noun: 'comments', mayHide: false },
  keywords: { noun: 'keywords', mayHide: false },
  rating: { noun: 'a rating', mayHide: false },
  label: { noun: 'a label', mayHide: false },
  'maker-note': { noun: "the camera's maker note", mayHide: false },
  preview: { noun: 'an embedded preview', mayHide: true },
}
