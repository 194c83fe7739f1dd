import { Type } from '@sinclair/typebox'
import type { Measurements } from '../../measure/schema/measurements.ts'
import { listed } from '../../text/quantity.ts'
import { quoted } from '../../text/quoted.ts'
import type { Finding } from '../contract/outcome.ts'
import { defineRule, type Subject } from '../contract/rule.ts'
import { FORMATS, type FormatId, formatName, formatOfExtension, isFormat } from '../judging/format-names.ts'
import { once } from '../judging/once.ts'
import { renameFix } from '../judging/rename-fix.ts'
import { skipped } from '../judging/unmeasured.ts'
import { withOthers } from './others.ts'

const ALL = Object.keys(FORMATS).filter(isFormat)

const Options = Type.Object(
  {
    allow: Type.Optional(
      Type.Array(Type.Unsafe<FormatId>(Type.Union(ALL.map((id) => Type.Literal(id)))), {
        minItems: 1,
        uniqueItems: true,
        description: 'The formats that may be delivered; by default all that can be read.',
      }),
    ),
  },
  { additionalProperties: false, description: 'Always on; which formats may be delivered.' },
)

export const fileFormat = defineRule({
  id: 'file-format',
  severity: 'file',
  dependsOn: 'export',
  text: {
    title: 'File format, read from the content',
    measures:
      'The format, read from the first bytes of the content, not the name; whether the extension matches; and whether the file holds more than one picture: extra pages, another picture or an archive after its end.',
    why: 'A file with the wrong extension opens on one machine and not on the next, and many upload forms refuse it.',
    fix: 'Export in an allowed format; rename a file that has the wrong extension.',
    example: 'file-format: { allow: [jpeg] }',
  },
  options: Options,
  always: {},
  needs: ['file'],
  formats: ({ allow = ALL }) => allow,
  judge({ measured, name, rename }, { allow = ALL }) {
    const allowed = inWords(allow)
    const { format, fault } = measured
    if (fault?.kind === 'not-a-picture') return notAPicture(measured, allowed)
    if (format !== null && isFormat(format) && !allow.includes(format))
      return {
        verdict: 'fail',
        measured: formatName(format),
        expected: allowed,
        reason: `The file is ${formatName(format)}; the spec asks for ${allowed}.`,
        fix: `Export again from the original as ${allowed}.`,
        export: { from: 'original', formats: [...allow] },
      }
    if (fault?.kind === 'format') return notReadable(format, allow)
    if (format === null) {
      if (fault) return skipped('The file has no content to read a format from.')
      return {
        verdict: 'unsure',
        measured: null,
        expected: allowed,
        reason: `The format could not be recognized. The spec asks for ${allowed}; check by eye.`,
      }
    }
    if (!isFormat(format)) return notReadable(format, allow)
    const finding = judgeExtension(measured.file, format, allowed, { name, rename })
    return withOthers(finding, measured.others)
  },
})

const inWords = once((formats: readonly FormatId[]) => listed(formats.map(formatName), 'or'))

function judgeExtension(file: string, format: FormatId, allowed: string, named: Named): Finding {
  const name = formatName(format)
  const [usual, ...others] = FORMATS[format].extensions
  const extension = extensionOf(file)
  if (extension !== null && [usual, ...others].some((fit) => fit === extension.toLowerCase()))
    return {
      verdict: 'pass',
      measured: name,
      expected: allowed,
      reason: `The file is ${name}; the spec asks for ${allowed}.`,
    }
  const called = extension === null ? 'has no extension' : `has the extension ${quoted(`.${extension}`)}`
  return {
    verdict: 'fail',
    measured: `${name}, ${extension === null ? 'no extension' : quoted(`.${extension}`)}`,
    expected: allowed,
    reason: `The content is ${name}, but the file ${called}; it should be .${usual}.`,
    ...(extension === null ? renamed(usual, named) : agreement(extension, usual, named)),
  }
}

type Named = Pick<Subject, 'name' | 'rename'>
type Fix = Pick<Finding, 'fix' | 'renames' | 'export'>

/** Makes name and content agree. Where the naming pattern asks for the extension, the content is what is wrong. */
function agreement(extension: string, usual: string, named: Named): Fix {
  const { name, rename } = named
  const isAsAgreed = name.pattern !== null && name.problems.length === 0 && !rename
  if (!isAsAgreed) return renamed(usual, named)
  const format = formatOfExtension(extension)
  return {
    fix: `Export it again as ${formatName(format)}, as its name says.`,
    ...(isFormat(format) && { export: { from: 'file', formats: [format] } }),
  }
}

function renamed(usual: string, { rename }: Named): Fix {
  if (rename) return { fix: renameFix(rename), renames: [rename] }
  return { fix: `Rename it to end in .${usual}.` }
}

function notAPicture({ format }: Measurements, allowed: string): Finding {
  const content = format === null ? 'not a picture' : `${formatName(format)}, not a picture`
  return {
    verdict: 'fail',
    measured: content,
    expected: allowed,
    reason: `The content is ${content}; the spec asks for ${allowed}.`,
    fix: 'Deliver the exported picture itself, or remove this file from the delivery.',
  }
}

// Formats of the HEIF family as cameras and phones write them.
const HEIC = ['heic', 'heif']
const DRAWINGS = ['svg', 'pdf', 'eps']

function notReadable(format: string | null, allow: readonly FormatId[]): Finding {
  const allowed = inWords(allow)
  const finding = {
    ...{ verdict: 'fail' as const, measured: formatName(format ?? 'unknown'), expected: allowed },
    export: { from: 'original' as const, formats: [...allow] },
  }
  if (format !== null && HEIC.includes(format))
    return {
      ...finding,
      reason: `The file is ${formatName(format)}, which portrait-gate does not decode; the spec asks for ${allowed}.`,
      fix: `Ask for ${allowed}.`,
    }
  if (format !== null && DRAWINGS.includes(format))
    return {
      ...finding,
      reason: `The content is ${formatName(format)}, a drawing or a document, not a photograph; the spec asks for ${allowed}.`,
      fix: `Deliver the photograph itself, exported as ${allowed}.`,
    }
  const named = format === null ? 'in a format that' : `${formatName(format)}, which`
  return {
    ...finding,
    reason: `The file is ${named} portrait-gate does not read; the spec asks for ${allowed}.`,
    fix: `Export again from the original as ${allowed}.`,
  }
}

/** The extension without its dot; null when the name has none. A leading dot is a hidden file, not an extension. */
function extensionOf(file: string): string | null {
  const name = file.slice(file.lastIndexOf('/') + 1)
  const dot = name.lastIndexOf('.')
  return dot > 0 && dot < name.length - 1 ? name.slice(dot + 1) : null
}
