/** The folder beside the start script in which all else lies. */
export const INSIDE = 'program'

/** What is run without arguments, as by a double click: the page on which deliveries are received. */
const ALONE = 'desk'

/** For Linux and macOS. It asks nothing of the search path. */
export function shellScript(): string {
  return `#!/bin/sh
# Starts portrait-gate with the Node beside it; nothing else need be installed.
case $0 in */*) here=\${0%/*} ;; *) here=. ;; esac
[ $# -gt 0 ] || set -- ${ALONE}
exec "$here/${INSIDE}/node" "$here/${INSIDE}/bundle/start.cjs" "$@"
`
}

/** For Windows: its window stays open until a key is pressed when it was opened by a double click. */
export function commandFile(): string {
  return [
    '@echo off',
    'rem Starts portrait-gate with the Node beside it; nothing else need be installed.',
    `if "%~1"=="" goto alone`,
    `"%~dp0${INSIDE}\\node.exe" "%~dp0${INSIDE}\\bundle\\start.cjs" %*`,
    'exit /b %errorlevel%',
    ':alone',
    `"%~dp0${INSIDE}\\node.exe" "%~dp0${INSIDE}\\bundle\\start.cjs" ${ALONE}`,
    'pause',
    '',
  ].join('\r\n')
}
