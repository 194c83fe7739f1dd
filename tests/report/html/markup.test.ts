import { expect, test } from 'vitest'
import { html, Markup } from '../../../src/report/html/markup.ts'

test('strings are escaped, in attributes and between tags', () => {
  const text = `<b> & "q" 'a'`
  expect(html`<p title="${text}">${text}</p>`.text).toBe(
    '<p title="&lt;b&gt; &amp; &quot;q&quot; &#39;a&#39;">&lt;b&gt; &amp; &quot;q&quot; &#39;a&#39;</p>',
  )
})

test('markup stays, lists are joined, null is nothing, numbers are written', () => {
  expect(html`${html`<i>${'<'}</i>`}|${[html`<b></b>`, '&', [1, null]]}|${null}|${0}`.text).toBe(
    '<i>&lt;</i>|<b></b>&amp;1||0',
  )
})

test('what only looks like markup is none', () => {
  const text: string = JSON.stringify({ text: '<i>' })
  expect(html`${text}`.text).not.toContain('<')
  expect(html`${new Markup('<i>')}`.text).toBe('<i>')
})
