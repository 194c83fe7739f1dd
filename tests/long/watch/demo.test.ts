import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { built } from '../../pool/built.ts'
import { shown } from '../../watch/session-folder.ts'

/** Frames that the demo draws: four sitters, five each. */
const FRAMES = 20

/** What the terminal says of a faulty frame, by the fault that was drawn; a head that leans a little is leveled in the crop. */
const SAID: Readonly<Record<string, RegExp>> = {
  'the eyes are out of focus': /^CHANGE {2}Focus on the eyes\.$/,
  'the head touches the upper edge': /^CHANGE {2}Aim higher, or raise the camera, by \d+ % of the frame\.$/,
  'the light is reflected by the spectacles': /^CHANGE {2}Tip the spectacles down, or raise the light\.$/,
  'the head is tilted': /^good {4}Good\.$/,
}
/** The same of one with nothing wrong, before and after the backdrop has become a third of a stop darker. */
const GOOD = /^good {4}Good\.$/
const DARKER = /^CHANGE {2}0\.3 stop more light on the backdrop\.$/

test('the demo of a session judges what it draws as it says that it drew it', async () => {
  const demo = spawn(process.execPath, [join(await built(), 'scripts', 'demo-watch.js')])
  let printed = ''
  demo.stdout.setEncoding('utf8').on('data', (text: string) => {
    printed += text
  })
  const judged = () => [...printed.matchAll(/^\d\d:\d\d:\d\d {2}(.*?) {2}(OSL_\d+\.JPG) {2}nobody: (.*)$/gm)]
  while (judged().length < FRAMES && demo.exitCode === null) await once(demo.stdout, 'data')
  const page = await shown(/^The page for the set: (\S+)/m.exec(printed)?.[1] ?? '')
  demo.kill('SIGTERM')
  await once(demo, 'close')
  expect(demo.exitCode).toBe(0)
  const lines = new Map(judged().map(([, word, name, line]) => [name, `${word}  ${line}`]))
  const drawn = [...printed.matchAll(/\(drew (\S+) of .*?: (.*)\)$/gm)]
  expect(drawn).toHaveLength(FRAMES)
  for (const [n, [, name, fault = '']] of drawn.entries()) {
    const fine = n < FRAMES / 2 ? GOOD : DARKER
    expect(lines.get(name), `${name}: ${fault}`).toMatch(SAID[fault] ?? fine)
  }
  expect(Object.values(page).join('')).toMatch(/the backdrop is 0\.\d\u00a0stops? darker/)
  const log = await readFile(
    join('.cache', 'demo-watch', 'frames', '.portrait-gate', 'session.jsonl'),
    'utf8',
  )
  expect(log.split('\n').filter((line) => line.includes('"kind":"frame"'))).toHaveLength(FRAMES)
})
