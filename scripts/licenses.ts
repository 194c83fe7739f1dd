/** What a lock file of npm (lockfileVersion 3) says of a package. */
interface Locked {
  readonly version: string
  readonly license?: string
  readonly dev?: boolean
  readonly optional?: boolean
}

/** One package as it is told: a family of builds for several systems is one. */
interface Told {
  readonly name: string
  readonly version: string
  readonly license: string
  /** Builds for several systems, of which one is installed. */
  readonly builds: number
}

/**
 * The page on the licenses of what portrait-gate holds and of what is installed with it, in Markdown.
 * @param lock text of package-lock.json
 * @param held names of the packages of which it holds a part
 * @throws Error when a package states no license
 */
export function licensesPage(lock: string, held: readonly string[]): string {
  const { packages } = JSON.parse(lock) as { packages: Readonly<Record<string, Locked>> }
  const all = Object.entries(packages).filter(([path]) => path !== '')
  const inside = all.filter(([path]) => held.some((name) => path === `node_modules/${name}`))
  return [
    ...INTRODUCTION,
    '',
    ...part('Inside the package', HELD, families(inside)),
    ...part('Installed with it', INSTALLED, families(all.filter(([, { dev }]) => dev !== true))),
  ].join('\n')
}

function part(title: string, about: readonly string[], told: readonly Told[]): string[] {
  const licenses = [...new Set(told.map(({ license }) => license))].sort()
  return [
    `## ${title}`,
    '',
    ...about,
    '',
    ...licenses.flatMap((license) => [
      `### ${license}`,
      '',
      ...told.filter((one) => one.license === license).map(line),
      '',
    ]),
  ]
}

const INTRODUCTION = [
  '<!-- Generated from package-lock.json and the bundle; run: npm run generate -->',
  '',
  '# Licenses',
  '',
  'portrait-gate is under the MIT license. Tools for development are not listed.',
]

const HELD = [
  'Of these the package holds code, networks or types; the texts of their licenses are in `bundle/LICENSES.txt`.',
]

const INSTALLED = [
  'Each states its license itself, and its text lies in its folder under `node_modules`. The picture library `libvips` and parts of it are under',
  'the LGPL, version 3 or later. They are shared libraries, installed by a package of their own (on Windows by that of `sharp`), and may be',
  'exchanged. Whoever hands them on with portrait-gate (in a container image, in an archive) hands on their license text too, and says where',
  'their source is: <https://github.com/lovell/sharp-libvips>.',
]

function line({ name, version, builds }: Told): string {
  return `- \`${name}\` ${version}${builds > 1 ? ` (${builds} builds, one for each system)` : ''}`
}

function families(packages: readonly (readonly [path: string, locked: Locked])[]): Told[] {
  const found = new Map<string, Told>()
  for (const [path, { version, license }] of packages) {
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length)
    if (license === undefined) throw new Error(`${name} states no license in package-lock.json; look it up.`)
    const family = name.replace(SYSTEM, '-*')
    const key = `${family} ${version} ${license}`
    const builds = (found.get(key)?.builds ?? 0) + 1
    found.set(key, { name: builds > 1 ? family : name, version, license: license, builds })
  }
  return [...found.values()].sort((one, other) => (one.name < other.name ? -1 : 1))
}

const SYSTEM = /-(?:android|darwin|freebsd|linux|linuxmusl|openharmony|webcontainers|win32)-.+$|-wasm32$/
