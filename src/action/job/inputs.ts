import { UsageError } from '../../checking/usage-error.ts'
import { parseShard, type Shard } from '../../delivery/shard.ts'

/** What the workflow asks for; paths as written there, from the workspace on. */
export interface Inputs {
  readonly spec: string
  readonly paths: readonly string[]
  readonly roster: string | null
  readonly waivers: string | null
  readonly gallery: string | null
  readonly onlyChanged: boolean
  readonly specFromBase: boolean
  readonly strict: boolean
  /** Whether a delivery in which nothing fails is packed into a bag. */
  readonly seal: boolean
  /** A delivery that was sent, a zip or a folder, to be judged in place of `paths`; null for none. */
  readonly receive: string | null
  readonly shard: Shard | null
  /** Reports on the parts of a delivery, or folders that hold them; none when portraits are to be judged. */
  readonly merge: readonly string[]
  readonly reportFolder: string
  /** Where measurements are kept, from the runner's temporary folder on; null to keep none. */
  readonly cacheFolder: string | null
  /** May read the repository, to fetch LFS content that is judged; null to take the checkout as it is. */
  readonly lfsToken: string | null
}

/** Inputs that judge less than a whole delivery, or no pictures. */
const NOT_WHOLE: readonly (readonly [string, (inputs: Inputs) => boolean])[] = [
  ['only-changed', ({ onlyChanged }) => onlyChanged],
  ['shard', ({ shard }) => shard !== null],
  ['merge', ({ merge }) => merge.length > 0],
]

const PREFIX = 'PORTRAIT_GATE_'

/**
 * Reads the inputs, which action.yml hands over in the environment: an expression in the text of a script would let
 * whoever writes a branch's name write the script.
 * @throws UsageError when one makes no sense
 */
export function readInputs(env: Readonly<Record<string, string | undefined>>): Inputs {
  const text = (name: string) => (env[variable(name)] ?? '').trim()
  const optional = (name: string) => text(name) || null
  const lines = (name: string) =>
    text(name)
      .split(/\r?\n/)
      .map((line) => line.trim())
      .filter((line) => line !== '')
  const flag = (name: string, unless: boolean) => {
    const value = text(name).toLowerCase()
    // An expression that knows nothing gives an empty text: that says nothing, so the default stands.
    if (value === '') return unless
    if (value === 'true') return true
    if (value === 'false') return false
    throw new UsageError(`The input ${name} is "${value}"; it should be true or false.`)
  }
  const paths = lines('paths')
  const inputs: Inputs = {
    spec: text('spec') || 'brand.yaml',
    paths: paths.length > 0 ? paths : ['.'],
    roster: optional('roster'),
    waivers: optional('waivers'),
    gallery: optional('gallery'),
    onlyChanged: flag('only-changed', false),
    specFromBase: flag('spec-from-base', true),
    strict: flag('strict', false),
    seal: flag('seal', false),
    receive: optional('receive'),
    shard: shardOf(optional('shard')),
    merge: lines('merge'),
    reportFolder: text('report-folder') || 'portrait-report',
    cacheFolder: optional('cache-folder'),
    lfsToken: optional('lfs-token'),
  }
  if (inputs.onlyChanged && inputs.shard !== null)
    throw new UsageError(
      'The inputs only-changed and shard cannot be combined: a part is a part of everything. Leave one out.',
    )
  for (const whole of ['seal', 'receive'] as const)
    for (const [part, isSet] of NOT_WHOLE)
      if (inputs[whole] && isSet(inputs))
        throw new UsageError(
          `The inputs ${whole} and ${part} cannot be combined: one run judges and ${whole}s a whole delivery. Leave one out.`,
        )
  if (inputs.seal && inputs.receive !== null)
    throw new UsageError(
      'The inputs seal and receive cannot be combined: what was received is sealed. Leave one out.',
    )
  return inputs
}

function shardOf(text: string | null): Shard | null {
  const shard = text === null ? null : parseShard(text)
  if (text === null || shard !== null) return shard
  throw new UsageError(
    `The input shard is "${text}"; it should be the part and how many there are, such as 2/5.`,
  )
}

/** `only-changed` is PORTRAIT_GATE_ONLY_CHANGED. */
export function variable(input: string): string {
  return PREFIX + input.toUpperCase().replaceAll('-', '_')
}
