// Control characters (escape sequences begin with one), invisible formatting such as bidirectional overrides
// (Unicode categories Cc, Cf, Zl, Zp) and lone surrogates (Cs). Zero-width joiners stay: names in several scripts need them.
const TRICKY = /(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu

/**
 * Text of strangers for a terminal or a log: what would move the cursor, color the screen, turn the reading
 * direction or break the line is written out as its code point, <U+001B>.
 */
export function forTerminal(text: string): string {
  return text.replace(TRICKY, (character) => `<U+${codePoint(character).padStart(4, '0')}>`)
}

// What has a meaning inside a line of GitHub Flavored Markdown or of HTML text, math ($) included.
const MARKUP = /[&<>`*_~|\\[\]$]|:(?=\/\/)|(?<=\bwww)\./gi
// What a forge turns into a notification or a link after rendering; a zero-width space behind it prevents that.
const REFERENCE = /@|#(?=\d)/g

/**
 * Text of strangers inside a line or a table cell of Markdown; not for the beginning of a line, where a number or a
 * hyphen would start a list. A character reference never counts as markup (CommonMark 0.31, 2.5), so each special
 * character is written as one.
 */
export function forMarkdown(text: string): string {
  return forTerminal(text)
    .replace(REFERENCE, '$&\u200b')
    .replace(MARKUP, (character) => `&#${character.charCodeAt(0)};`)
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}
// Noncharacters that XML 1.0 forbids (section 2.2); the control characters it forbids are written out as tricky.
const NO_XML = /[\ufffe\uffff]/g

/** Text of strangers for HTML or XML: between tags or inside a quoted attribute. */
export function forHtml(text: string): string {
  return forTerminal(text)
    .replace(NO_XML, (character) => `<U+${codePoint(character)}>`)
    .replace(/[&<>"']/g, (character) => ENTITIES[character] ?? '')
}

// Spreadsheets take a cell that begins so, blanks aside, for a formula; in full width too.
const FORMULA = /^[\s\u00a0]*[=+\-@\uff1d\uff0b\uff0d\uff20]/

/**
 * Text of strangers as a cell of comma-separated values (RFC 4180), always in quotes. What a spreadsheet could take
 * for a formula gets an apostrophe before it, by which spreadsheets mark text.
 */
export function forCsv(text: string): string {
  const plain = forTerminal(text)
  return `"${(FORMULA.test(plain) ? `'${plain}` : plain).replaceAll('"', '""')}"`
}

/**
 * JSON text in which no character is tricky to print, and no workflow command stands; it reads back as the same value (RFC 8259, section 7).
 * @param json as JSON.stringify gives it; its own line breaks stay
 */
export function forJson(json: string): string {
  // A report of thousands of portraits has tens of megabytes, and most are no more than ASCII.
  const plain = BEYOND_ASCII.test(json) ? escaped(json) : json
  // Only within a string do two number signs stand; on a workflow's runner this begins a command.
  return plain.replaceAll('##[', '##\\u005b')
}

const BEYOND_ASCII = /[^\n\x20-\x7e]/

function escaped(json: string): string {
  return json.replace(TRICKY, (character) => {
    if (character === '\n') return character
    return Array.from({ length: character.length }, (_, i) => {
      return `\\u${character.charCodeAt(i).toString(16).padStart(4, '0')}`
    }).join('')
  })
}

const COMBINING = /\p{M}/gu

/**
 * Text of strangers as one argument in a POSIX shell script: in single quotes, to be read back by printf's %b. A
 * backslash is doubled; what is tricky to print, and accents stored apart from their letters, which may not survive
 * being copied, are written byte by byte as \0 and three octal digits (POSIX.1-2017, printf, %b).
 */
export function forShell(text: string): string {
  const bytes = (characters: string) =>
    [...Buffer.from(characters)].map((byte) => `\\0${byte.toString(8).padStart(3, '0')}`).join('')
  const plain = text.replaceAll('\\', '\\\\').replace(TRICKY, bytes)
  const safe = plain === plain.normalize('NFC') ? plain : plain.replace(COMBINING, bytes)
  return `'${safe.replaceAll("'", "'\\''")}'`
}

// What begins a workflow command on a runner: two colons at the head of a line, or two number signs and a bracket at
// any place in it (github.com/actions/runner, src/Runner.Common/ActionCommand.cs).
const COMMAND = /(?<=:):|(?<=##)\[/g

/** Text of strangers as one line of a workflow's log: for a terminal, and no workflow command at any place in it. */
export function forWorkflowLog(text: string): string {
  return forTerminal(text).replace(COMMAND, (character) => `<U+${codePoint(character).padStart(4, '0')}>`)
}

// Beside them, text of strangers stands in lines that are ours.
const COMMAND_LINE = /^([^\S\n]*):(?=:)|(?<=##)\[/gm

/**
 * Output of ours, in which text of strangers is safe for a terminal, for a workflow's log: no line of it is a command.
 * JSON that went through `forJson` stays as it is.
 */
export function forWorkflowOutput(text: string): string {
  return text.replace(COMMAND_LINE, (match, spaces) => (match === '[' ? '<U+005B>' : `${spaces}<U+003A>`))
}

/**
 * The message of a workflow command, which the runner reads back as it was. It is what the command says, not what it
 * does to a terminal: text of strangers goes through `forWorkflowLog` first.
 * The escapes are those of github.com/actions/toolkit, packages/core/src/command.ts.
 */
export function forWorkflowMessage(text: string): string {
  return text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A')
}

/** A property of a workflow command, such as the file that an annotation points at; source as for messages. */
export function forWorkflowProperty(text: string): string {
  return forWorkflowMessage(text).replaceAll(':', '%3A').replaceAll(',', '%2C')
}

function codePoint(character: string): string {
  return (character.codePointAt(0) ?? 0).toString(16).toUpperCase()
}
