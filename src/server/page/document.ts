import { html, type Markup } from '../../report/html/markup.ts'
import type { Reply } from '../server.ts'
import { ICON } from './marks.ts'
import { SCRIPT } from './script.ts'
import { STYLE } from './style.ts'

/** Parts of a page by the ids of their places. */
export type Regions = Readonly<Record<string, Markup>>

/** As a stream sends them. */
export function texts(regions: Regions): Record<string, string> {
  return Object.fromEntries(Object.entries(regions).map(([id, { text }]) => [id, text]))
}

/** A whole page of the local server, which loads its style and script from there and is told of changes by a stream. */
export function page(title: string, content: Markup): Reply {
  const body = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${title}</title>
<link rel="icon" href="icon.svg">
<link rel="stylesheet" href="page.css">
<script src="page.js" defer></script>
</head>
<body>
${content}
</body>
</html>
`.text
  return { type: 'text/html; charset=utf-8', body }
}

/** What pages are made of beside their own text: the shared part, and what these add to it. */
export interface Own {
  readonly style: string
  readonly script?: string
}

/** What a page loads, by its name; null for any other name. */
export function asset(name: string, { style, script = '' }: Own): Reply | null {
  switch (name) {
    case 'icon.svg':
      return { type: 'image/svg+xml', body: ICON }
    case 'page.css':
      return { type: 'text/css; charset=utf-8', body: STYLE + style }
    case 'page.js':
      return { type: 'text/javascript; charset=utf-8', body: SCRIPT + script }
  }
  return null
}
