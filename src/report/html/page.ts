import { createHash } from 'node:crypto'
import { html, Markup } from './markup.ts'
import { SCRIPT } from './script.ts'
import { STYLE } from './style/style.ts'

/**
 * A whole HTML document that needs nothing from elsewhere. Its policy (Content Security Policy Level 3, W3C) lets in
 * this style, this script and pictures written into the page; nothing is loaded, sent or framed.
 * @param script null for a page without one
 */
export function page(title: string, body: Markup, script: string | null = SCRIPT): string {
  const policy = [
    "default-src 'none'",
    'img-src data:',
    `style-src '${hashOf(STYLE)}'`,
    ...(script === null ? [] : [`script-src '${hashOf(script)}'`]),
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ')
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${new Markup(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<title>${title}</title>
<style>${new Markup(STYLE)}</style>
</head>
<body>
<main>${body}</main>
<footer><p class="small">This report judges files, not people. It contains pictures of people: share it only as you would share the portraits.</p></footer>
${
  script === null
    ? null
    : html`<script>${new Markup(script)}</script>
`
}</body>
</html>
`.text
}

function hashOf(text: string): string {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`
}
