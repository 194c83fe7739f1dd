/**
 * The pages' one script, for browsers. What it shows comes from the server as finished HTML, in which every text of a
 * stranger is escaped; it puts each part into its place, sends what was tapped, and gives keys to what names them.
 */
export const SCRIPT = `
'use strict'
const events = document.querySelector('main').dataset.events
const lost = document.getElementById('lost')

function show(regions) {
  for (const [id, markup] of Object.entries(regions)) {
    const place = document.getElementById(id)
    if (!place || place.dataset.shown === markup) continue
    const active = document.activeElement
    const focused = place.contains(active) ? active.id : ''
    const top = place.scrollTop
    const typed = [...place.querySelectorAll('input[type=text], textarea')].map(({ id, value }) => [id, value])
    place.innerHTML = markup
    for (const [id, value] of typed) {
      const field = document.getElementById(id)
      if (field) field.value = value
    }
    place.dataset.shown = markup
    place.scrollTop = top
    if (focused) document.getElementById(focused)?.focus({ preventScroll: true })
  }
}

const stream = new EventSource(events)
stream.onmessage = ({ data }) => {
  lost.hidden = true
  const { regions, leave } = JSON.parse(data)
  if (leave) location.href = '.'
  show(regions)
}
stream.onerror = () => { lost.hidden = false }

async function send(text) {
  const reply = await fetch('do', { method: 'POST', headers: { 'content-type': 'application/json' }, body: text }).catch(() => null)
  if (!reply) lost.hidden = false
}

document.addEventListener('click', (event) => {
  const tapped = event.target.closest('button[data-do]')
  if (tapped) send(tapped.dataset.do)
})
document.addEventListener('change', (event) => {
  if (event.target.matches('select[data-chosen]')) send(event.target.value)
  if (event.target.matches('input[data-do]')) send(event.target.dataset.do)
})
document.addEventListener('submit', (event) => {
  event.preventDefault()
  const filled = Object.fromEntries(new FormData(event.target, event.submitter))
  send(JSON.stringify({ ...JSON.parse(event.target.dataset.sends), ...filled }))
})

const isTyping = (element) => element.matches('input, select, textarea')
document.addEventListener('keydown', (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return
  const keyed = [...document.querySelectorAll('[data-key]')].find((one) => one.dataset.key === event.key)
  if (keyed) {
    event.preventDefault()
    keyed.click()
    return
  }
  const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key]
  const row = step && event.target.closest('[data-row]')
  if (!row) return
  const stops = [...row.querySelectorAll('button, a[href]')]
  const next = stops[stops.indexOf(event.target.closest('button, a[href]')) + step]
  if (!next) return
  event.preventDefault()
  next.focus()
})
`
