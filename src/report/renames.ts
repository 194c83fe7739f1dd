import type { Report } from '../judge/report.ts'
import type { Rename } from '../naming/rename.ts'
import { byCodePoint } from '../text/code-points.ts'
import { count } from '../text/quantity.ts'
import { forShell, forTerminal } from './safe.ts'

type Move = Extract<Rename, { to: string }>
type Copy = Extract<Rename, { sameAs: string }>

/**
 * The renames that the report asks for, as a POSIX shell script that a person can read: a line a file, from and to.
 * Nothing is overwritten, and a copy is deleted only when its bytes are those of the file that it copies. What can't be
 * settled by a name stands in comments.
 */
export function renames(report: Report): string {
  const all = renamesIn(report)
  const moves = all.flatMap((rename) => ('to' in rename ? [rename] : []))
  const copies = all.flatMap((rename) => ('sameAs' in rename && rename.by === 'bytes' ? [rename] : []))
  const left = all.filter((rename) => 'refused' in rename || ('sameAs' in rename && rename.by === 'picture'))
  const blocks = [
    HEAD,
    ...(copies.length > 0 ? [copies.map(copyLine).join('\n')] : []),
    ...(moves.length > 0 ? [moves.map(moveLine).join('\n')] : []),
    ...(left.length > 0 ? [['# Not settled by renaming:', ...left.map(note)].join('\n')] : []),
    `# ${count(moves.length, 'file')} to rename, ${count(copies.length, 'copy', 'copies')} to delete, ${left.length} to decide by eye.`,
  ]
  return `${blocks.join('\n\n')}\n`
}

/** All renames of findings that nobody has waived, one a file, by their paths. */
function renamesIn({ files, delivery }: Report): Rename[] {
  const outcomes = [...files.flatMap((file) => file.outcomes), ...delivery.outcomes]
  const open = outcomes.filter(({ waiver }) => waiver === undefined).flatMap(({ renames = [] }) => renames)
  const byFile = new Map(open.map((rename) => [rename.from, rename]))
  return [...byFile.values()].sort((a, b) => byCodePoint(a.from, b.from))
}

function moveLine({ from, to }: Move): string {
  return `move ${forShell(from)} ${forShell(to)}`
}

function copyLine({ from, sameAs }: Copy): string {
  return `drop_copy ${forShell(from)} ${forShell(sameAs)}`
}

function note(rename: Rename): string {
  const name = `# ${forTerminal(rename.from)}: `
  if ('to' in rename) return `${name}rename to ${forTerminal(rename.to)}`
  if ('sameAs' in rename)
    return `${name}shows the same picture as ${forTerminal(rename.sameAs)}; check by eye and delete one`
  const wanted = forTerminal(rename.wanted)
  return rename.refused === 'format'
    ? `${name}export again as ${wanted}`
    : `${name}should be ${wanted}, as should ${rename.others.map(forTerminal).join(', ')}`
}

// Command substitution cuts line breaks off the end, which the added x prevents. Everything goes by way of another
// name: on some disks two names that differ in letter case or accents are one file.
const HEAD = `#!/bin/sh
# Gives the files of a delivery their right names. Read it, then run it in the folder that was checked:
#   sh renames.sh            or, from elsewhere:   sh renames.sh FOLDER
# It overwrites nothing and stops at the first name that is missing or taken. In names, \\\\ is a backslash,
# and \\0 with three digits a byte, as printf %b reads them.
set -eu
cd -- "\${1:-.}"

stop() { printf '%s\\n' "Stopped: $1" >&2; exit 1; }
there() { [ -e "$1" ] || [ -L "$1" ]; }
name() { printf './%bx' "$1"; }
aside() {
  moving=$1.moving
  if there "$moving"; then stop "$2.moving is in the way"; fi
  mv -- "$1" "$moving"
}
move() {
  from=$(name "$1"); from=\${from%x}
  to=$(name "$2"); to=\${to%x}
  if ! there "$from"; then there "$to" || stop "$1 is missing"; return 0; fi
  mkdir -p -- "\${to%/*}"
  aside "$from" "$1"
  if there "$to"; then mv -- "$moving" "$from"; stop "$2 is taken, $1 stays"; fi
  mv -- "$moving" "$to"
}
drop_copy() {
  copy=$(name "$1"); copy=\${copy%x}
  kept=$(name "$2"); kept=\${kept%x}
  there "$copy" || return 0
  aside "$copy" "$1"
  if cmp -s -- "$moving" "$kept"; then rm -- "$moving"; return 0; fi
  mv -- "$moving" "$copy"
  stop "$1 is not a copy of $2 and stays"
}`
