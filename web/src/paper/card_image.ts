import { answer } from "../job/answer";
import { job } from "../job/job";
import { leadOf } from "../job/lead";
import { phasesOf, routeOf } from "../job/route";
import { pick, pickOther } from "../parts/Value";
import { inSign } from "../view/sign";
import { words } from "../words";
import { Strip } from "./canvas";

/** The job's card as a picture to send: what to set, how it lies, and the steps. Null where there is none to draw. */
export async function cardImage(name: string): Promise<File | null> {
  const sheet = answer.value?.sheet;
  if (!sheet) return null;
  const lead = leadOf(sheet);
  const strip = new Strip();
  strip.text(pick(lead.title), { size: 21, bold: true });
  strip.text([name, new Date().toLocaleDateString()].filter(Boolean).join(", "), { size: 13 });
  if (job.value.invented) strip.text(words.demo.mark, { size: 13, bold: true });
  strip.line();
  if (lead.figure) {
    strip.text(pick(lead.label), { size: 14, above: 4 });
    strip.text(pick(lead.figure.shown), { size: 44, bold: true });
    strip.text([pick(lead.figure.plus_minus_shown), pickOther(lead.figure.shown)].filter(Boolean).join("   "), { size: 14 });
  }
  for (const text of lead.words) strip.text(pick(text), { size: 16, bold: true });
  if (lead.stack) strip.text(`${words.card.stack} ${pick(lead.stack.shown)}`, { size: 17, bold: true, above: 4 });
  for (const text of lead.pictures) await strip.picture(inPictures(text));
  for (const { label, text } of lead.rows) strip.text(`${pick(label)}: ${pick(text)}`, { size: 14, above: 3 });
  if (lead.danger) strip.text(`${words.sheet.danger}: ${lead.danger.text}`, { size: 14, bold: true, above: 6 });
  for (const phase of phasesOf(routeOf(sheet))) {
    strip.text(words.lathe.phase(phase.name), { size: 15, bold: true, above: 10 });
    for (const step of phase.steps) {
      strip.box(13, 4);
      strip.text(pick(step.text), { size: 13, indent: 18, above: 4 });
    }
  }
  const made = await strip.finished();
  return made && new File([made], `${fileName(name || pick(lead.title))}.png`, { type: "image/png" });
}

/** A drawing's words with the decimal sign that was chosen. */
function inPictures(text: string): string {
  return text.replace(/>([^<]+)</g, (_, said: string) => `>${inSign(said)}<`);
}

function fileName(text: string): string {
  return text.replace(/[^\p{L}\p{N} ,.+-]+/gu, " ").trim().slice(0, 60) || words.name;
}
