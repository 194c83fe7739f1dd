import { Ajv, type AnySchema } from 'ajv'
import standaloneCode from 'ajv/dist/standalone/index.js'
import { Naming, specSchema } from '../../src/brand-spec/schema.ts'
import { GalleryFile } from '../../src/gallery/gallery-schema.ts'
import { ALL_RULES } from '../../src/rules/delivery-index.ts'

/** Files of src that compile a schema when they are asked, the function of each, and the schema. That of reports is left out: it would add 1.2 MB. */
const SCHEMAS: Readonly<Record<string, readonly [name: string, schema: AnySchema]>> = {
  'src/brand-spec/fits-naming.ts': ['fitsNaming', Naming],
  'src/brand-spec/fits-spec.ts': ['fitsSpec', specSchema(ALL_RULES)],
  'src/gallery/fits-gallery.ts': ['fitsGallery', GalleryFile],
}

/** JavaScript to stand in their place, by path: the schemas as ajv compiles them. */
export function compiledSchemas(): ReadonlyMap<string, string> {
  return new Map(
    Object.entries(SCHEMAS).map(([path, [name, schema]]) => {
      const ajv = new Ajv({
        allowUnionTypes: true,
        inlineRefs: false,
        messages: false,
        code: { source: true, esm: true, optimize: 3 },
      })
      const code = standaloneCode.default(ajv, ajv.compile(JSON.parse(JSON.stringify(schema, withoutWords))))
      return [path, `${withoutErrors(code)}\nexport const ${name} = (data) => validate(data)\n`]
    }),
  )
}

/** Of a schema what is for people. A property may have such a name, but its schema is no text and no list. */
function withoutWords(key: string, value: unknown): unknown {
  const isWords = ['description', 'title', '$schema'].includes(key) && typeof value === 'string'
  return isWords || (key === 'examples' && Array.isArray(value)) ? undefined : value
}

/** An error as ajv writes it. */
const ERROR = String.raw`\{(?:instancePath(?:[^{}"]|"[^"]*")*,schemaPath:"[^"]*",keyword:"[^"]*",params:\{(?:[^{}"]|"(?:[^"\\]|\\.)*")*\}(?:,propertyName:\w+)?)?\}`

/** What ajv 8 writes to keep errors, and what is left when they are only counted. */
const KEEPING: readonly (readonly [kept: RegExp, counted: string])[] = [
  [
    new RegExp(
      String.raw`const (err\d+) = ${ERROR};if\(vErrors === null\)\{vErrors = \[\1\];\}else \{vErrors\.push\(\1\);\}errors\+\+;`,
      'g',
    ),
    'errors++;',
  ],
  [new RegExp(String.raw`validate\d+\.errors = \[${ERROR}\];`, 'g'), ''],
  [
    /vErrors = vErrors === null \? (validate\d+)\.errors : vErrors\.concat\(\1\.errors\);errors = vErrors\.length;/g,
    'errors++;',
  ],
  [/if\(vErrors !== null\)\{if\((_errs\d+)\)\{vErrors\.length = \1;\}else \{vErrors = null;\}\}/g, ''],
  [/validate\d+\.errors = vErrors;/g, ''],
  [/let vErrors = null;/g, ''],
]

/**
 * Whether data fit is all that is asked: keeping errors is half of the code.
 * @throws Error when something of it is left, as another version of ajv may write it
 */
function withoutErrors(code: string): string {
  const counting = KEEPING.reduce((text, [kept, counted]) => text.replaceAll(kept, counted), code)
  const left = /.{0,80}(?:vErrors|\.errors\b|schemaPath).{0,80}/.exec(counting)
  if (left) throw new Error(`ajv keeps errors in a way that is not known here: ${left[0]}`)
  return counting
}
