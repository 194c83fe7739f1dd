/**
 * The page's own script: what is dropped or chosen is sent to this machine's own server, file by file. A folder is sent with
 * all that is in it, each zip as it is, and single pictures together.
 */
export const DROP = `
const copying = document.getElementById('copying')
const isZip = ({ name }) => /\\.zip$/i.test(name)
const isStyle = ({ name }) => /\\.ya?ml$/i.test(name)

const post = (path, body) =>
  fetch(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })

async function sendDelivery(name, zip, files) {
  if (files.length === 0) {
    copying.textContent = name + ' is empty.'
    return
  }
  const begun = await post('upload', { name, isZip: zip })
  if (!begun.ok) {
    copying.textContent = name + ' can’t be taken in under this name. Give it another one.'
    return
  }
  const { id } = await begun.json()
  let bytes = 0
  for (const [n, { path, file }] of files.entries()) {
    copying.textContent = 'Copying ' + name + ': ' + (n + 1) + ' of ' + files.length
    const put = await fetch('upload/' + id + '/' + encodeURIComponent(path), { method: 'POST', body: file })
    if (!put.ok) break
    bytes += file.size
  }
  copying.textContent = ''
  await post('upload/' + id, { files: files.length, bytes })
}

async function sendAll(deliveries) {
  if (deliveries.length === 0)
    copying.textContent = 'That is not a delivery. A house style is chosen at the top of this page; here, drop the portraits.'
  try {
    for (const { name, zip, files } of deliveries) await sendDelivery(name, zip, files)
  } catch {
    copying.textContent = 'Copying was broken off. Try again.'
  }
}

const inTurn = (entry, take) => new Promise((resolve, reject) => entry[take](resolve, reject))

async function filesIn(folder, above) {
  const reader = folder.createReader()
  const files = []
  for (;;) {
    const some = await inTurn(reader, 'readEntries')
    if (some.length === 0) return files
    for (const one of some) {
      const path = above + one.name
      if (one.isFile) files.push({ path, file: await inTurn(one, 'file') })
      else files.push(...(await filesIn(one, path + '/')))
    }
  }
}

function zipsAndPictures(files) {
  const single = files.filter((file) => !isZip(file) && !isStyle(file)).map((file) => ({ path: file.name, file }))
  return [
    ...files.filter(isZip).map((file) => ({ name: file.name, zip: true, files: [{ path: file.name, file }] })),
    ...(single.length > 0 ? [{ name: 'pictures', zip: false, files: single }] : []),
  ]
}

addEventListener('dragover', (event) => event.preventDefault())
addEventListener('drop', async (event) => {
  event.preventDefault()
  const { items, files } = event.dataTransfer
  // Both are gone once the event is over.
  const entries = [...items].map((item) => item.webkitGetAsEntry()).filter((entry) => entry && entry.isDirectory)
  const all = [...files].filter((file) => !entries.some(({ name }) => name === file.name))
  const folders = []
  for (const entry of entries) folders.push({ name: entry.name, zip: false, files: await filesIn(entry, '') })
  await sendAll([...folders, ...zipsAndPictures(all)])
})

document.getElementById('zip').addEventListener('change', async ({ target }) => {
  const files = [...target.files]
  target.value = ''
  await sendAll(zipsAndPictures(files))
})
document.getElementById('folder').addEventListener('change', async ({ target }) => {
  const files = [...target.files]
  target.value = ''
  const [name = 'pictures'] = (files[0]?.webkitRelativePath ?? '').split('/')
  await sendAll([
    { name, zip: false, files: files.map((file) => ({ path: file.webkitRelativePath.split('/').slice(1).join('/'), file })) },
  ])
})
`
