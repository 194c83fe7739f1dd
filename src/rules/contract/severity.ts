/**
 * What a miss does to a portrait, the worst first. `unusable`: there is no picture of this person to use; `picture`:
 * what everybody sees is wrong; `file`: it is saved otherwise than ordered; `label`: the name or the metadata are wrong.
 * The order is that in which a studio works through a list: what must be made again before what is saved or renamed again.
 */
export const SEVERITIES = ['unusable', 'picture', 'file', 'label'] as const
export type Severity = (typeof SEVERITIES)[number]
