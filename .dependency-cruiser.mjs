// Imports point downwards only: a file may import from its own folder and from those further down in src/rooms.yaml, types
// included. Run in the repository's root.
import { readFileSync } from 'node:fs'
import { parse } from 'yaml'

const rooms = parse(readFileSync('src/rooms.yaml', 'utf8')).map(({ folder }) => folder)
const filesIn = (folders) =>
  `^src/(${folders.map((folder) => (folder === '.' ? '' : `${folder}/`)).join('|')})[^/]+$`
// What a change of which makes the cache measure anew (src/cache/measurer.ts).
const MEASURING = '^src/(measure|imaging|kernels|color|numbers|files)/'

export default {
  forbidden: [
    ...rooms.map((folder, index) => ({
      name: `${folder === '.' ? 'src' : folder} imports from lower folders only`,
      severity: 'error',
      from: { path: filesIn([folder]) },
      to: { path: '^(src|scripts|tests|examples)/', pathNot: filesIn(rooms.slice(index)) },
    })),
    {
      name: 'every folder has its line in src/rooms.yaml',
      severity: 'error',
      from: { path: '^src/', pathNot: filesIn(rooms) },
      to: {},
    },
    {
      name: 'measuring is made of measuring code only',
      severity: 'error',
      from: { path: MEASURING },
      to: { path: '^src/', pathNot: MEASURING },
    },
    { name: 'no cycles', severity: 'error', from: {}, to: { circular: true } },
    { name: 'imports lead somewhere', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    // The compiler that dependency-cruiser would use by itself ended with TypeScript 6.
    parser: 'swc',
    tsPreCompilationDeps: true,
    moduleSystems: ['es6'],
    doNotFollow: { path: 'node_modules' },
    // AssemblyScript.
    exclude: { path: '^src/kernels/assembly/' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'node', 'default'] },
  },
}
