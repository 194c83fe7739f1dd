import { html, type Markup } from '../../report/html/markup.ts'

/** The page, with an empty place for each of its parts. */
export function body(inbox: string | null): Markup {
  return html`<p id="lost" class="lost" role="alert" hidden>portrait-gate has ended: start it again to go on. Sign-offs that were not saved are gone. You can close this page.</p>
<main data-events="events">
<h1>Receive a delivery</h1>
<section id="style" class="part" aria-label="House style"></section>
<section id="drop" class="drop" aria-labelledby="drop-title"><h2 id="drop-title">Drop what the studio sent anywhere on this page</h2>
<p>The zip as it came, or the folder. Or choose it:</p>
<p class="choose"><label class="button">Choose a zip <input id="zip" type="file" accept=".zip,application/zip" multiple></label>
<label class="button">Choose a folder <input id="folder" type="file" webkitdirectory></label></p>
${inbox === null ? null : html`<p>Or put it into the folder <b><bdi>${inbox}</bdi></b>, where it is found within a few seconds.</p>`}
<p id="copying" class="copying" role="status"></p></section>
<section id="deliveries" class="deliveries" aria-label="Deliveries"></section>
<section id="delivery" class="part" aria-label="The delivery" aria-live="polite"></section>
<section id="questions" class="part" aria-label="Questions of the studio"></section>
<section id="findings" class="part" aria-label="Findings"></section>
<section id="differences" class="part" aria-label="House styles compared"></section>
<section id="signing" class="part" aria-label="Sign-off"></section>
</main>
<footer><p>Nothing leaves this machine, and nothing is kept when you end but the sign-offs that were saved.</p>
<div id="ending"></div></footer>`
}
