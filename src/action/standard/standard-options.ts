import type { StandardOptions } from '../../checking/standard.ts'
import type { InForce } from './standard-in-force.ts'

/** The files to judge by, as the command line names them; what the spec extends lies in their folder too. */
export function optionsOf({ files, cwd }: Pick<InForce, 'files' | 'cwd'>): StandardOptions {
  const { spec, roster, waivers, gallery } = files
  return {
    spec,
    within: cwd,
    ...(roster !== null && { roster }),
    ...(waivers !== null && { waivers }),
    ...(gallery !== null && { gallery }),
  }
}
