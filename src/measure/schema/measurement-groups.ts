/** Groups of measurements that can be asked for; each is computed only when some rule needs it. */
export const GROUPS = [
  'file',
  'checksum',
  'decode',
  'metadata',
  'background',
  'cutout',
  'face',
  'head',
  'finish',
  'focus',
  'halo',
  'texture',
  'enlargement',
  'eyes',
  'signature',
] as const
export type MeasurementGroup = (typeof GROUPS)[number]
