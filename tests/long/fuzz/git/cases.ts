import { LOOSE_SPEC, SPEC } from '../../../action/runner/deliveries.ts'
import type { Node, Paths } from '../../../action/runner/import.ts'
import { below, happens, pick, type Random } from '../chance.ts'
import { addFaults } from './faults.ts'

/** Pictures and repositories that all random repositories are made of. */
export interface Material {
  readonly good: readonly Buffer[]
  readonly bad: readonly Buffer[]
  /** A repository of portraits, and two of its commits: the second brings a bad one. */
  readonly submodule: { readonly url: string; readonly good: string; readonly bad: string }
}

export interface Case {
  readonly base: Paths
  readonly head: Paths
  /** What the change does, for a report. */
  readonly steps: readonly string[]
  readonly paths: string
}

const PEOPLE = ['Adeyemi-Folasade', 'Dhillon-Harpreet', 'Farouk-Layla', 'Grieve-Morag', 'Iyer-Nalini']
const FOLDERS = ['', 'web/', 'print/', 'web/2026/']
const file = (text: string): Node => ({ file: Buffer.from(text) })
// The pattern names no folder, so every folder may hold everybody.
const NAMED = SPEC.replace('roster: staff.csv\n', '')

type Change = (tree: Map<string, Node>, random: Random, material: Material) => string

/** A random delivery, which passes or has faults of its own, and a random change to it. */
export function randomCase(random: Random, material: Material): Case {
  const { base, paths, isFaulty } = randomBase(random, material)
  const head = new Map(base)
  const steps: string[] = []
  // On a base with faults a change that does no harm shows whether those of the base count.
  const isHarmless = isFaulty && happens(random, 0.5)
  for (let n = isHarmless ? 1 : 1 + below(random, 4); n > 0; n--) {
    const change = isHarmless ? replace : pick(random, happens(random, 0.75) ? EVIL : PLAIN)
    steps.push(change(head, random, material))
  }
  return { base, head, steps, paths }
}

function randomBase(random: Random, material: Material) {
  const base = new Map<string, Node>([
    ['brand.yaml', file(NAMED)],
    ['waivers.yaml', file('[]\n')],
    ['README.md', file('Portraits\n')],
  ])
  const home = happens(random, 0.2) ? 'kept/originals' : 'portraits'
  for (const [index, person] of PEOPLE.entries())
    base.set(`${home}/${pick(random, FOLDERS)}${person}.jpg`, { file: material.good[index] as Buffer })
  if (home !== 'portraits') base.set('portraits', { link: happens(random, 0.5) ? home : 'way/in' })
  if (base.has('portraits')) base.set('way/in', { link: '../kept/originals' })
  if (happens(random, 0.2)) {
    base.set(`${home}/shared/Osei-Kofi.jpg`, { file: material.good[5] as Buffer })
    base.set(`${home}/Osei-Kwame.jpg`, { link: 'shared/Osei-Kofi.jpg' })
  }
  if (happens(random, 0.15)) addSubmodule(base, material, material.submodule.good)
  if (happens(random, 0.2)) base.set('.gitattributes', file('*.jpg -text\n'))
  if (happens(random, 0.1)) base.set('other/link', { link: '../kept' })
  const isFaulty = happens(random, 0.4)
  if (isFaulty) addFaults(base, { people: PEOPLE, home, spec: NAMED }, random, material)
  const paths =
    base.has('delivery') && happens(random, 0.7)
      ? 'portraits\ndelivery'
      : pick(random, ['portraits', 'portraits', '.'])
  return { base, paths, isFaulty }
}

function addSubmodule(tree: Map<string, Node>, { submodule }: Material, commit: string): void {
  tree.set('delivery', { submodule: commit })
  tree.set('.gitmodules', file(`[submodule "delivery"]\n\tpath = delivery\n\turl = ${submodule.url}\n`))
}

function pictures(tree: ReadonlyMap<string, Node>): string[] {
  return [...tree.keys()].filter((path) => path.endsWith('.jpg'))
}

function homeOf(tree: ReadonlyMap<string, Node>): string {
  return tree.has('portraits') ? 'kept/originals' : 'portraits'
}

/** Moves all that lies below a folder. */
function move(tree: Map<string, Node>, from: string, to: string): void {
  for (const [path, node] of [...tree])
    if (path.startsWith(`${from}/`)) {
      tree.delete(path)
      tree.set(to + path.slice(from.length), node)
    }
}

const spoil: Change = (tree, random, { bad }) => {
  const path = pick(random, pictures(tree))
  tree.set(path, { file: pick(random, bad) })
  return `spoils ${path}`
}

const replace: Change = (tree, random, { good }) => {
  const path = pick(random, pictures(tree))
  tree.set(path, { file: good[6] as Buffer })
  return `replaces ${path}`
}

const EVIL: readonly Change[] = [
  spoil,
  (tree, random, { bad }) => {
    const path = `${homeOf(tree)}/${pick(random, FOLDERS)}${pick(random, ['Zed-New', 'Adeyemi-Folasade', 'no name'])}.${pick(random, ['jpg', 'JPG', 'jpeg', 'png'])}`
    if ([...tree.keys()].some((one) => one.startsWith(`${path}/`))) return 'nothing'
    tree.set(path, { file: pick(random, bad) })
    return `adds ${path}`
  },
  (tree, random, material) => {
    const from = homeOf(tree)
    const to = pick(random, ['p2', 'PORTRAITS', 'kept/again', 'portraits.old'])
    move(tree, from, to)
    if (from === 'portraits') tree.set('portraits', { link: to })
    else tree.set('way/in', { link: `../${to}` })
    return `moves ${from} to ${to} behind a link, ${spoil(tree, random, material)}`
  },
  (tree, random, { bad, good }) => {
    tree.set('elsewhere/bad.jpg', { file: pick(random, bad) })
    tree.set(`${homeOf(tree)}/hidden/bad.jpg`, { file: pick(random, happens(random, 0.5) ? bad : good) })
    const path = pick(
      random,
      pictures(tree).filter((one) => one.startsWith(homeOf(tree))),
    )
    const link = pick(random, [
      'hidden/bad.jpg',
      '../elsewhere/bad.jpg',
      'nowhere.jpg',
      '.',
      '/dev/zero',
      'web/../hidden/bad.jpg',
    ])
    tree.set(path, { link })
    return `makes ${path} a link to ${link}`
  },
  (tree, random, { bad }) => {
    const path = `${pick(random, ['Portraits', 'PORTRAITS', 'portraitſ'])}/${pick(random, PEOPLE)}.jpg`
    tree.set(path, { file: pick(random, bad) })
    return `adds the twin ${path}`
  },
  (tree, random) => {
    const [one, other] = [pick(random, pictures(tree)), pick(random, pictures(tree))]
    const [a, b] = [tree.get(one) as Node, tree.get(other) as Node]
    tree.set(one, b).set(other, happens(random, 0.5) ? a : b)
    return `puts ${other} in place of ${one}`
  },
  (tree) => {
    const rows = tree.get('staff.csv')
    if (!rows || !('file' in rows)) return 'nothing'
    tree.set('staff.csv', file(rows.file.toString().split('\n').slice(0, -2).join('\n')))
    return 'takes a row from the roster'
  },
  (tree, _, material) => {
    addSubmodule(tree, material, material.submodule.bad)
    return 'moves the submodule to a bad commit'
  },
  (tree, random) => {
    const path = pick(random, pictures(tree))
    const oid = Array.from({ length: 64 }, () => below(random, 16).toString(16)).join('')
    tree.set(path, file(`version https://git-lfs.github.com/spec/v1\noid sha256:${oid}\nsize 9\n`))
    return `makes ${path} a pointer`
  },
  (tree, random) => {
    const path = pick(random, ['.gitattributes', `${homeOf(tree)}/.gitattributes`])
    tree.set(path, file(pick(random, ['*.jpg text eol=crlf\n', '*.jpg ident\n', '* text=auto eol=crlf\n'])))
    return `sets ${path}`
  },
  (tree, random, { bad }) => {
    tree.set(
      'brand.yaml',
      file(LOOSE_SPEC.replace('height: 100', 'height: 75').replace('roster: staff.csv\n', '')),
    )
    for (const path of pictures(tree)) if (happens(random, 0.8)) tree.set(path, { file: pick(random, bad) })
    return 'loosens the spec and spoils'
  },
  (tree, random, { bad }) => {
    const path = pick(random, pictures(tree))
    tree.set(path, { file: pick(random, bad) })
    tree.set(
      'waivers.yaml',
      file(
        `- rule: pixel-size\n  file: ${path.replace(/^portraits\//, '')}\n  reason: none\n  approved-by: x\n  until: 2999-01-01\n`,
      ),
    )
    return `spoils ${path} and lets it through`
  },
  (tree, random, { bad }) => {
    const kept = new Map(tree)
    tree.set('rules/brand.yaml', kept.get('brand.yaml') as Node)
    tree.set('brand.yaml', { link: 'rules/brand.yaml' })
    tree.set(pick(random, pictures(tree)), { file: pick(random, bad) })
    return 'makes the spec a link, spoils'
  },
]

const PLAIN: readonly Change[] = [
  (tree) => {
    tree.set('README.md', file('Portraits, and more\n'))
    return 'writes'
  },
  replace,
  (tree, random) => {
    const path = pick(random, pictures(tree))
    const node = tree.get(path) as Node
    tree.delete(path)
    tree.set(path.replace('.jpg', 'x.jpg'), node)
    return `renames ${path}`
  },
  (tree, random) => {
    const path = pick(random, pictures(tree))
    if (pictures(tree).length > 2) tree.delete(path)
    return `removes ${path}`
  },
  (tree) => {
    tree.set('portrait-report/report.json', { link: '/dev/null' })
    return 'commits a report'
  },
  (tree) => {
    tree.set('portrait-cache/00/x', file('x'))
    return 'commits a cache'
  },
]
