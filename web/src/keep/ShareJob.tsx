import { useSignal } from "@preact/signals";
import { inOneFile } from "../bridge/open_worker";
import { Segments } from "../parts/Segments";
import { keptName } from "../kept/in_hand";
import { cardImage } from "../paper/card_image";
import { words } from "../words";
import { type Along, codeOf, shortLink } from "./share";

/** Hand the job on: by the device's own sharing, by a copy, or by a code for another phone's camera. */
export function ShareJob() {
  const along = useSignal<Along>("none");
  const said = useSignal("");
  const byHand = useSignal("");
  const code = useSignal<readonly (readonly boolean[])[] | null>(null);
  const copy = async () => {
    const link = await shortLink(along.value);
    try {
      await navigator.clipboard.writeText(link);
      said.value = words.job.copied;
    } catch {
      // No clipboard on a plain http address, or the person said no.
      byHand.value = link;
      said.value = words.job.copyByHand;
    }
  };
  const share = async () => {
    const url = await shortLink(along.value);
    await navigator.share({ title: words.name, url }).catch(() => undefined);
  };
  const picture = async () => {
    const made = await cardImage(keptName()).catch(() => null);
    said.value = made ? await handOver(made) : words.share.noPicture;
  };
  const show = async () => {
    if (code.value) return (code.value = null);
    const link = await shortLink(along.value);
    code.value = await codeOf(link);
    said.value = code.value ? words.share.letters(link.length) : words.share.tooLong;
    return null;
  };
  return (
    <section class="share" aria-label={words.share.heading}>
      <h2>{words.share.heading}</h2>
      <Segments
        name="along"
        legend={words.share.along}
        choices={[
          { value: "none", label: words.share.none },
          { value: "stack", label: words.share.stack },
          { value: "drawer", label: words.share.drawer },
        ]}
        chosen={along.value}
        onChoose={(value) => {
          along.value = value as Along;
          code.value = null;
        }}
      />
      <div class="buttons">
        {!inOneFile && "share" in navigator && <button type="button" onClick={() => void share()}>{words.share.send}</button>}
        <button type="button" onClick={() => void copy()}>{words.job.copy}</button>
        {!inOneFile && (
          <button type="button" aria-expanded={code.value !== null} onClick={() => void show()}>{words.share.code}</button>
        )}
        <button type="button" onClick={() => void picture()}>{words.share.picture}</button>
        <button type="button" onClick={() => print()}>{words.job.print}</button>
      </div>
      {inOneFile && <p class="help">{words.oneFile.share}</p>}
      <p role="status" class="said">{said.value}</p>
      {code.value && <Code rows={code.value} />}
      {byHand.value && <textarea readOnly aria-label={words.job.copy} rows={4} value={byHand.value} />}
    </section>
  );
}

/** By the device's own sharing where it takes files, else as a file; what the page says of it. */
async function handOver(file: File): Promise<string> {
  if (navigator.canShare?.({ files: [file] })) {
    await navigator.share({ files: [file] }).catch(() => undefined);
    return "";
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return words.share.saved(file.name);
}

/** Always dark on light, whatever the look: a camera wants it so. */
function Code({ rows }: { readonly rows: readonly (readonly boolean[])[] }) {
  const path = rows.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ""))).join("");
  return (
    <svg class="code" viewBox={`0 0 ${rows.length} ${rows.length}`} role="img" aria-label={words.share.codeOf}>
      <rect width={rows.length} height={rows.length} fill="#fff" />
      <path d={path} fill="#000" shape-rendering="crispEdges" />
    </svg>
  );
}
