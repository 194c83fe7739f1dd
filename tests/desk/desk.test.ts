import { readdir, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Ajv } from 'ajv'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Signed } from '../../src/hand-over/signed.ts'
import { shown } from '../watch/session-folder.ts'
import { OpenDesk } from './open-desk.ts'

const isSigned = new Ajv().compile<Signed>(Signed)

let desk: OpenDesk
let url: string
beforeEach(async () => {
  desk = await OpenDesk.make()
})
afterEach(() => desk.remove())

const post = async (path: string, body: unknown, headers: Record<string, string> = {}) => {
  const own = { 'content-type': 'application/json', origin: new URL(url).origin, ...headers }
  return fetch(url + path, { method: 'POST', headers: own, body: JSON.stringify(body) })
}
const wish = async (body: unknown) => (await post('do', body)).status
const put = async (id: string, path: string, content: Buffer | string) => {
  const headers = { origin: new URL(url).origin }
  const { status } = await fetch(`${url}upload/${id}/${encodeURIComponent(path)}`, {
    ...{ method: 'POST', headers, body: content },
  })
  return status
}
/** The parts of the page as soon as one of them holds a text. */
const until = (text: string) => shown(url, 'events', text)
async function begin(name: string, isZip: boolean): Promise<string> {
  const { id } = (await (await post('upload', { name, isZip })).json()) as { id: string }
  return id
}
async function sendZip(name: string): Promise<string> {
  const zip = await readFile(join(desk.base, name))
  const id = await begin(name, true)
  expect(await put(id, name, zip)).toBe(204)
  expect((await post(`upload/${id}`, { files: 1, bytes: zip.length })).status).toBe(204)
  return id
}
const workrooms = async () =>
  (await readdir(tmpdir())).filter(
    (name) => name.startsWith('portrait-gate-desk-') && name.includes(`-${process.pid}-`),
  )

test('a sealed zip: received, answered, signed, and gone at the end', async () => {
  await desk.seal('osprey.zip')
  const before = await workrooms()
  url = await desk.open()
  const id = await sendZip('osprey.zip')
  const parts = await until('Of 2 portraits, 1 fails.')
  expect(parts.delivery).toContain('It is whole and unchanged')
  expect(parts.questions).toContain('The large file was lost.')
  expect(parts.differences).toContain('version')
  expect(parts.signing).toContain('Answer the studio first.')
  const signing = { do: 'sign', delivery: id, by: 'Ingrid Vale', note: '' }
  expect(await wish({ ...signing, decision: 'approved' })).toBe(204)
  expect((await until('It was not signed off.')).signing).not.toContain('Approved by')
  expect((await fetch(`${url}sign-off/${id}`)).status).toBe(404)
  expect(await wish({ do: 'answer', delivery: id, question: 1, agreed: true })).toBe(409)
  expect(await wish({ do: 'answer', delivery: id, question: 0, agreed: false })).toBe(204)
  expect((await until('All are answered.')).signing).toContain('1 portrait fails.')
  expect(await wish({ do: 'answer', delivery: id, question: 0, agreed: true })).toBe(204)
  await until('All 2 portraits pass.')
  expect(await wish({ ...signing, decision: 'approved' })).toBe(204)
  const unkept = await until('Approved by')
  expect(unkept.ending).toMatch(
    /sign-off of <b><bdi>osprey\.zip<\/bdi><\/b> is not saved yet.*without saving/,
  )
  expect(unkept.delivery).toContain('Remove without saving the sign-off')
  const signed: unknown = await (await fetch(`${url}sign-off/${id}`)).json()
  expect(signed).toMatchObject({
    ...{ kind: 'portrait delivery sign-off', decision: 'approved', by: 'Ingrid Vale', from: 'osprey.zip' },
    ...{ bag: { signedBy: null }, note: null, refused: null },
    questions: [{ rule: 'pixel-size', files: ['Adeyemi-Folasade.jpg'], agreed: true }],
    judged: {
      ...{ verdict: 'pass', delivery: { files: 2 } },
      exceptions: [{ rule: 'pixel-size', approvedBy: 'Mika Oduya' }],
    },
  })
  expect(isSigned(signed)).toBe(true)
  const kept = await until('Remove from this page')
  expect(kept.ending).not.toContain('without saving')
  const report = await fetch(`${url}report/${id}/report.html`)
  expect(report.headers.get('content-security-policy')).toMatch(/^sandbox (?!.*same-origin)/)
  expect(await report.text()).toContain('Adeyemi-Folasade.jpg')
  expect((await workrooms()).length).toBe(before.length + 1)
  expect(await wish({ do: 'end' })).toBe(204)
  expect(await desk.ended).toBe(0)
  expect(await workrooms()).toEqual(before)
  // Of the delivery, that is: which spec was used is kept.
  expect(await readdir(join(desk.base, 'cache'))).toEqual(['desk.json'])
})

test('a folder that is not sealed, and can be returned', async () => {
  url = await desk.open()
  const id = await begin('delivery', false)
  let bytes = 0
  for (const name of ['Adeyemi-Folasade.jpg', 'Lund-Bjørn.jpg']) {
    const content = await readFile(join(desk.base, 'delivery', name))
    expect(await put(id, `web/${name}`, content)).toBe(204)
    bytes += content.length
  }
  expect((await post(`upload/${id}`, { files: 2, bytes })).status).toBe(204)
  expect((await until('Of 2 portraits')).delivery).toContain('It is not sealed')
  const note = 'Please send the large file.'
  expect(await wish({ do: 'sign', delivery: id, by: 'Ingrid Vale', note, decision: 'returned' })).toBe(204)
  await until('Returned by')
  const signed: unknown = await (await fetch(`${url}sign-off/${id}`)).json()
  expect(signed).toMatchObject({
    ...{ decision: 'returned', note, bag: null },
    judged: { verdict: 'fail', exceptions: [] },
  })
  expect(isSigned(signed)).toBe(true)
  const kept = await until('Remove from this page')
  expect(kept.ending).not.toContain('without saving')
})

test('what leads out, is cut off or comes from elsewhere is refused, and written nowhere', async () => {
  url = await desk.open()
  const id = await begin('delivery', false)
  const { origin } = new URL(url)
  const before = await readdir(desk.base)
  for (const headers of [{ origin: 'http://evil.example' }, { origin: 'null' }])
    expect((await post('upload', { name: 'x', isZip: false }, headers)).status).toBeGreaterThanOrEqual(400)
  const guessed = `${origin}/${'A'.repeat(22)}/upload/${id}/x.jpg`
  expect((await fetch(guessed, { method: 'POST', headers: { origin }, body: 'x' })).status).toBe(404)
  for (const name of ['..', '../x', 'a/b', '', 'x.exe'])
    expect((await post('upload', { name, isZip: false })).status, name).toBe(409)
  expect((await fetch(`${url}upload/${id}/%E0%A4%A`, { method: 'POST', headers: { origin } })).status).toBe(
    409,
  )
  expect(await put(id, '../../../out.jpg', 'x')).toBe(409)
  expect((await until('would go out of the folder')).delivery).toContain('It could not be received.')
  // After that it takes no more.
  expect(await put(id, 'fine.jpg', 'x')).toBe(409)
  const cut = await begin('cut', false)
  expect(await put(cut, 'a.jpg', 'x')).toBe(204)
  expect((await post(`upload/${cut}`, { files: 2, bytes: 2 })).status).toBe(409)
  await until('was cut off: 1 of 2 files arrived')
  expect(await put('0123456789abcdef', 'a.jpg', 'x')).toBe(409)
  for (const path of [
    'report/../x',
    `report/${id}/report.html`,
    `report/${id}/..`,
    `sign-off/${id}`,
    'desk.json',
  ])
    expect((await fetch(url + path)).status, path).toBe(404)
  expect(await readdir(desk.base)).toEqual(before)
})

test('the house style is chosen among what is listed, and kept for the next time', async () => {
  await desk.put({
    'styles/new.yaml': 'brand: Osprey Lane Veterinary Group\nversion: 7\npixel-size: { width: 3 }\n',
    'styles/broken.yaml': 'brand: Osprey Lane Veterinary Group\nversion: 8\nheadrooms: 3\n',
    'styles/notes.yaml': 'shopping: milk\n',
    'styles/.hidden/brand.yaml': 'brand: x\n',
    'elsewhere/brand.yaml': 'brand: x\nversion: 1\n',
  })
  url = await desk.open()
  expect((await shown(url)).style).toContain('version 2')
  expect(await wish({ do: 'choose', isOpen: true })).toBe(204)
  for (const folder of ['..', '/', '../styles', 'nowhere'])
    expect(await wish({ do: 'look', folder }), folder).toBe(409)
  expect(await wish({ do: 'style', spec: '../styles/new.yaml' })).toBe(409)
  expect(await wish({ do: 'look', folder: null })).toBe(204)
  expect(await wish({ do: 'look', folder: 'styles' })).toBe(204)
  const { style } = await until('new.yaml')
  expect(style).toContain('broken.yaml')
  expect(style).not.toMatch(/notes\.yaml|hidden/)
  expect(await wish({ do: 'style', spec: 'broken.yaml' })).toBe(204)
  const broken = (await until('headrooms')).style
  expect(broken).toContain('<br>')
  expect(broken).not.toContain('U+000A')
  await desk.put({ 'styles/late.yaml': 'brand: Osprey Lane Veterinary Group\nversion: 9\n' })
  expect(await wish({ do: 'choose', isOpen: true })).toBe(204)
  await until('late.yaml')
  expect(await wish({ do: 'style', spec: 'new.yaml' })).toBe(204)
  await until('version 7')
  expect(await wish({ do: 'end' })).toBe(204)
  await desk.ended
  await writeFile(join(desk.base, 'client/brand.yaml'), '')
  url = await desk.open()
  expect((await shown(url)).style).toContain('version 7')
})
