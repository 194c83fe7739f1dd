import { html, type Markup } from '../../report/html/markup.ts'

/** Parts of a page by the ids of their places. */
export type Regions = Readonly<Record<string, Markup>>

/** A whole page of the local server, which loads its style and script from there and is told of changes by a stream. */
export function document(title: string, body: Markup): string {
  return html`<!doctype html>
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
${body}
</body>
</html>
`.text
}
