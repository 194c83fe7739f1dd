import type { StandardOptions } from '../../checking/standard.ts'
import type { StandardFiles } from './base-spec.ts'

/** The files to judge by, as the command line names them. */
export function optionsOf({ spec, roster, waivers, gallery }: StandardFiles): StandardOptions {
  return {
    spec,
    ...(roster !== null && { roster }),
    ...(waivers !== null && { waivers }),
    ...(gallery !== null && { gallery }),
  }
}
