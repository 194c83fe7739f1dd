import { createHash } from 'node:crypto'
import { html, Markup } from './markup.ts'
import { SCRIPT } from './script.ts'
import { STYLE } from './style/style.ts'

/**
 * A whole HTML document that needs nothing from elsewhere. Its policy (Content Security Policy Level 3, W3C) lets in
 * this style, this script and pictures written into the page; nothing is loaded, sent or framed.
 */
export function page(title: string, body: Markup): string {
  const policy = [
    "default-src 'none'",
    'img-src data:',
    `style-src '${hashOf(STYLE)}'`,
    `script-src '${hashOf(SCRIPT)}'`,
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
${body}<script>${new Markup(SCRIPT)}</script>
</body>
</html>
`.text
}

function hashOf(text: string): string {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`
}
