/**
 * The page's one script, for browsers: filters, sorts, keeps both in the URL's fragment, and walks the cards
 * and the set with the arrow keys. Without it the page shows every card. It writes no HTML, so no text of a stranger can become markup.
 */
export const SCRIPT = `
'use strict'
const form = document.querySelector('form.filters')
const list = document.querySelector('.cards')
const cards = [...list.children]
const output = form.querySelector('output')
const marks = [...document.querySelectorAll('[data-for]')]
const NAMES = ['standing', 'rule', 'deliverable', 'words', 'sort', 'plain']
const figures = new Map(cards.map((card) => [card, new Map(card.dataset.figures.split(' ').map((pair) => pair.split('=')))]))
const order = new Map(cards.map((card, place) => [card, place]))

function stateOfForm() {
  const state = new URLSearchParams()
  for (const name of NAMES) {
    const field = form.elements[name]
    const value = !field ? '' : field.type === 'checkbox' ? (field.checked ? 'yes' : '') : field.value.trim()
    if (value) state.set(name, value)
  }
  return state
}

function fillForm(state) {
  for (const name of NAMES) {
    const field = form.elements[name]
    if (!field) continue
    const value = state.get(name) || ''
    if (field.type === 'checkbox') field.checked = value === 'yes'
    else field.value = value
    if (field.tagName === 'SELECT' && field.selectedIndex < 0) field.selectedIndex = 0
  }
}

function fits(card, state) {
  const { standing, rules, deliverable, words } = card.dataset
  const sought = (state.get('words') || '').normalize('NFC').toLowerCase().split(/\\s+/)
  return (
    (!state.has('standing') || state.get('standing') === standing) &&
    (!state.has('rule') || rules.split(' ').includes(state.get('rule'))) &&
    (!state.has('deliverable') || state.get('deliverable') === deliverable) &&
    sought.every((word) => words.includes(word))
  )
}

function compare(sort) {
  if (!sort) return (a, b) => order.get(a) - order.get(b)
  if (sort === 'name') return (a, b) => a.dataset.place - b.dataset.place
  const value = (card) => (figures.get(card).has(sort) ? Number(figures.get(card).get(sort)) : Infinity)
  return (a, b) => value(a) - value(b) || order.get(a) - order.get(b)
}

// Of each row of pictures, one is a stop for the Tab key, and the arrow keys lead on from it.
const rows = [...document.querySelectorAll('.strip')]
const stopsIn = (row) => [...row.querySelectorAll('.place:not(.out)')]
function stopAt(row, stop) {
  for (const old of row.querySelectorAll('[tabindex="0"]')) old.tabIndex = -1
  if (stop) stop.tabIndex = 0
}
for (const row of rows) {
  for (const place of row.children) place.tabIndex = -1
  stopAt(row, row.children[0])
}

let sorted = ''
function show() {
  const state = stateOfForm()
  const hidden = new Set()
  for (const card of cards) {
    card.hidden = !fits(card, state)
    if (card.hidden) hidden.add(card.id)
  }
  for (const mark of marks) mark.classList.toggle('out', hidden.has(mark.dataset.for))
  for (const row of rows) if (row.querySelector('[tabindex="0"].out')) stopAt(row, stopsIn(row)[0])
  const sort = state.get('sort') || ''
  if (sort !== sorted) list.append(...cards.toSorted(compare(sort)))
  sorted = sort
  document.body.classList.toggle('plain', state.has('plain'))
  const shown = cards.length - hidden.size
  output.value = hidden.size === 0 ? '' : shown + ' of ' + cards.length + ' shown'
  form.querySelector('[type=reset]').hidden = state.size === 0
}

function remember() {
  history.replaceState(null, '', '#' + stateOfForm())
}

function follow() {
  const fragment = location.hash.slice(1)
  const card = document.getElementById(fragment)
  if (card && card.hidden) {
    fillForm(new URLSearchParams())
    show()
    card.scrollIntoView()
  }
  if (card || (fragment && !fragment.includes('='))) return
  fillForm(new URLSearchParams(fragment))
  show()
}

form.hidden = false
form.addEventListener('input', () => { show(); remember() })
form.addEventListener('reset', () => setTimeout(() => { show(); remember() }))
form.addEventListener('submit', (event) => event.preventDefault())
addEventListener('hashchange', follow)
function walk(event, stops, stop) {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return null
  const place = stops.indexOf(stop)
  const next = { ArrowRight: place + 1, ArrowLeft: place - 1, Home: 0, End: stops.length - 1 }[event.key]
  if (place < 0 || next === undefined || !stops[next]) return null
  event.preventDefault()
  stops[next].focus()
  return stops[next]
}
list.addEventListener('keydown', (event) => {
  const shown = [...list.children].filter((one) => !one.hidden)
  const stop = walk(event, shown.map((one) => one.querySelector('h3 a')), event.target)
  if (stop) stop.closest('.card').scrollIntoView({ block: 'nearest' })
})
for (const row of rows) {
  row.addEventListener('keydown', (event) => {
    const stop = walk(event, stopsIn(row), event.target)
    if (stop) stopAt(row, stop)
  })
}
for (const button of document.querySelectorAll('button[data-rule]')) {
  button.hidden = false
  button.addEventListener('click', () => {
    fillForm(new URLSearchParams({ rule: button.dataset.rule }))
    show()
    remember()
    form.scrollIntoView()
  })
}
show()
follow()
`
