/**
 * What a person sees in place of the page when a file of it is not on the device and the server has something else
 * under its name. It asks again by itself, so that it heals without a hand.
 */

/** Between one asking and the next [ms]. */
const PAUSE = 5000;

const words = {
  title: "Conewright waits for one of its files",
  said:
    "A file of Conewright is missing on this device, and what answers here is not it: perhaps no network, a network's " +
    "sign-in page, or a site that is being worked on.",
  kept: "What you have kept stays as it is. Nothing needs to be cleared.",
  again: "This page tries again by itself. It can be tried now, too:",
  now: "Try again",
};

export function refusedPage(): Response {
  const body = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>${words.title}</title>
<body style="font: 1.25rem/1.5 sans-serif; margin: 2rem; max-width: 34rem">
<h1 style="font-size: 1.5rem">${words.title}</h1><p>${words.said}</p><p><b>${words.kept}</b></p>
<p>${words.again}</p><p><button style="font: inherit; padding: 1rem" onclick="location.reload()">${words.now}</button></p>
<script>setTimeout(() => location.reload(), ${PAUSE})</script>`;
  return new Response(body, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}
